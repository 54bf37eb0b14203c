//! The notation over random blocks and random texts: a block that is printed and read is the same
//! block, and no text makes it panic.

use std::ops::Range;

use lane_distance::{Course, LaneNumber, Place};
use proptest::option::weighted;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use proptest::test_runner::RngSeed;
use workout_notation::{Block, Problem};
use workout_notation::{
    Body, Details, Gap, HurdlePart, Item, MOST_REPS, Pace, Recovery, RecoveryKind, Run, RunKind, RunLength,
    RunPlace, Series, Spanned, Stance, TrackPart, Turns,
};

/// A value whose place in a text does not matter.
fn spanned<T>(value: T) -> Spanned<T> {
    Spanned { value, span: 0..0 }
}

/// A number with at most one digit after the point.
fn tenths(range: Range<u32>) -> impl Strategy<Value = f64> {
    range.prop_map(|tenths| f64::from(tenths) / 10.0)
}

fn length() -> impl Strategy<Value = RunLength> {
    prop_oneof![
        4 => tenths(100..100_000).prop_map(RunLength::Metres),
        1 => tenths(1..500).prop_map(RunLength::Laps),
    ]
}

/// Equal turns, or several that differ.
fn turns() -> impl Strategy<Value = Turns> {
    let several = proptest::collection::vec(tenths(100..10_000), 1..=8);
    several.prop_filter_map("turns are not all alike", |metres| {
        let is_alike = metres.len() > 1 && metres.iter().all(|other| *other == metres[0]);
        Turns::new(&metres).filter(|_| !is_alike)
    })
}

/// A part of a race that is named.
fn hurdle_part_of_race() -> impl Strategy<Value = HurdlePart> {
    prop_oneof![
        2 => Just(HurdlePart::Whole),
        2 => (1_u8..=10).prop_map(HurdlePart::To),
        1 => (2_u8..=9, 0_u8..=1).prop_map(|(first, more)| HurdlePart::Between { first, last: first + more }),
    ]
}

/// A part of a race that is not named.
fn hurdle_part() -> impl Strategy<Value = HurdlePart> {
    prop_oneof![
        2 => (1_u8..=10).prop_map(HurdlePart::To),
        1 => (2_u8..=9, 0_u8..=1).prop_map(|(first, more)| HurdlePart::Between { first, last: first + more }),
        1 => (tenths(300..4000), 1_u8..=10).prop_map(|(run_m, hurdles)| HurdlePart::First { run_m, hurdles }),
        1 => (tenths(300..4000), 1_u8..=10).prop_map(|(run_m, hurdles)| HurdlePart::Last { run_m, hurdles }),
    ]
}

fn kind() -> BoxedStrategy<RunKind> {
    prop_oneof![
        6 => length().prop_map(RunKind::Plain),
        1 => (tenths(100..2000), tenths(50..1000))
            .prop_map(|(metres, run_in_m)| RunKind::Flying { metres, run_in_m }),
        1 => (select(vec![60.0, 100.0, 110.0, 400.0]), hurdle_part_of_race())
            .prop_map(|(race_m, part)| RunKind::Hurdles { race_m: Some(race_m), part }),
        1 => hurdle_part().prop_map(|part| RunKind::Hurdles { race_m: None, part }),
        1 => (1_u8..=3).prop_map(|zone| RunKind::Exchange { zone }),
        1 => (length(), turns()).prop_map(|(length, turns)| RunKind::InAndOut { length, turns }),
        1 => select(vec![TrackPart::Straight, TrackPart::Bend]).prop_map(RunKind::Part),
        1 => tenths(201..20_000).prop_map(|seconds| RunKind::Timed { seconds }),
    ]
    .boxed()
}

fn pace() -> BoxedStrategy<Pace> {
    prop_oneof![
        tenths(1..20_000).prop_map(|seconds| Pace::Time { seconds, to_s: None }),
        (tenths(1..10_000), tenths(0..10_000))
            .prop_map(|(seconds, more_s)| Pace::Time { seconds, to_s: Some(seconds + more_s) }),
        (tenths(1..10_000), tenths(10..100_000)).prop_map(|(seconds, per_m)| Pace::Rate { seconds, per_m }),
        tenths(300..1200).prop_map(Pace::Percent),
        tenths(1000..500_000).prop_map(Pace::Race),
        (tenths(1000..500_000), tenths(1..300), any::<bool>(), weighted(0.5, tenths(500..20_000))).prop_map(
            |(race_m, seconds, is_faster, per_m)| {
                Pace::OffRace { race_m, seconds: if is_faster { -seconds } else { seconds }, per_m }
            }
        ),
    ]
    .boxed()
}

fn gap() -> impl Strategy<Value = Gap> {
    let seconds = || tenths(1..20_000);
    prop_oneof![seconds().prop_map(Gap::Rest), seconds().prop_map(Gap::Cycle)]
}

fn recovery_kind() -> impl Strategy<Value = RecoveryKind> {
    prop_oneof![
        tenths(1..100_000).prop_map(RecoveryKind::Jog),
        tenths(1..100_000).prop_map(RecoveryKind::JogExactly),
        tenths(1..100_000).prop_map(RecoveryKind::Walk),
        tenths(1..100_000).prop_map(RecoveryKind::WalkExactly),
        Just(RecoveryKind::WalkBack),
        Just(RecoveryKind::JogBack),
        Just(RecoveryKind::Stand),
        Just(RecoveryKind::ChangeEnds),
    ]
}

fn place() -> impl Strategy<Value = RunPlace> {
    let at = select(vec![
        Place::Bend,
        Place::On(Course::Oval),
        Place::On(Course::HomeStraight),
        Place::On(Course::BackStraight),
        Place::Against(Course::HomeStraight),
        Place::Against(Course::BackStraight),
    ]);
    let straight = select(vec![None, Some(Course::HomeStraight), Some(Course::BackStraight)]);
    prop_oneof![
        3 => at.prop_map(RunPlace::At),
        1 => (straight, any::<bool>()).prop_map(|(on, against)| RunPlace::Wind { on, against }),
    ]
}

fn lanes() -> impl Strategy<Value = Vec<LaneNumber>> {
    subsequence(LaneNumber::ALL.to_vec(), 1..=10).prop_shuffle()
}

fn recovery() -> BoxedStrategy<Recovery> {
    (weighted(0.3, recovery_kind()), weighted(0.4, gap()), weighted(0.2, tenths(1..20_000)), any::<bool>())
        .prop_map(|(kind, gap, set_rest, jogs)| Recovery {
            after: None,
            jogs: jogs && kind.is_none() && matches!(gap, Some(Gap::Rest(_))),
            kind: kind.map(spanned),
            gap: gap.map(spanned),
            set_rest: set_rest.map(spanned),
        })
        .boxed()
}

fn details() -> BoxedStrategy<Details> {
    let marks = ["400 m start", "finish line", "200 m start + 5", "scratch line - 12"];
    let efforts = ["easy", "steady", "fast relaxed", "flat out", "time trial", "jogging"];
    (
        weighted(0.3, lanes()),
        weighted(0.2, place()),
        weighted(0.1, select(marks.to_vec())),
        weighted(0.1, select(marks.to_vec())),
        weighted(0.1, Just(())),
        weighted(0.1, select(vec![Stance::Blocks, Stance::Standing, Stance::Crouch, Stance::Rolling])),
        weighted(0.3, pace()),
        weighted(0.2, select(efforts.to_vec())),
        recovery(),
    )
        .prop_map(|(lanes, place, from, to, together, stance, pace, effort, recovery)| Details {
            lanes: lanes.map(spanned),
            place: place.map(spanned),
            from: from.map(|mark| spanned(mark.to_owned())),
            to: to.map(|mark| spanned(mark.to_owned())),
            together: together.map(spanned),
            stance: stance.map(spanned),
            pace: pace.map(spanned),
            effort: effort.map(|effort| spanned(effort.to_owned())),
            recovery,
        })
        .boxed()
}

/// A run within a list, which has nothing said of it: what the last run of a list may keep for itself
/// depends on the others, and is tried by texts.
fn bare_run() -> BoxedStrategy<Item> {
    kind()
        .prop_map(|kind| Item::Run(Box::new(Run { kind: spanned(kind), details: Details::default() })))
        .boxed()
}

/// A run in the middle of a list, of which anything may be said.
fn run() -> BoxedStrategy<Item> {
    (kind(), details())
        .prop_map(|(kind, details)| Item::Run(Box::new(Run { kind: spanned(kind), details })))
        .boxed()
}

fn repeated_run() -> BoxedStrategy<Series> {
    (2..=6_u32, bare_run(), details())
        .prop_map(|(count, run, details)| Series { count, items: vec![run], details })
        .boxed()
}

/// Several items so many times, the last a bare run or a series.
fn list(inner: BoxedStrategy<Series>) -> BoxedStrategy<Series> {
    let series = || inner.clone().prop_map(|series| Item::Series(Box::new(series)));
    let before = proptest::collection::vec(prop_oneof![run(), series()], 1..4);
    let last = prop_oneof![bare_run(), series()];
    (1..=3_u32, before, last, details())
        .prop_map(|(count, mut items, last, details)| {
            items.push(last);
            Series { count, items, details }
        })
        .boxed()
}

/// Sets of one series that is itself repeated. What lies between the sets is said of them, where a turn
/// of that series is one run.
fn sets(inner: BoxedStrategy<Series>) -> BoxedStrategy<Series> {
    (2..=3_u32, inner, details())
        .prop_filter_map("the series is repeated", |(count, mut inner, mut details)| {
            if inner.count == 1 {
                return None;
            }
            let is_of_single_runs = inner.items.len() == 1 && matches!(inner.items[0], Item::Run(_));
            if is_of_single_runs {
                let set_rest = inner.details.recovery.set_rest.take();
                details.recovery.set_rest = details.recovery.set_rest.or(set_rest);
            }
            Some(Series { count, items: vec![Item::Series(Box::new(inner))], details })
        })
        .boxed()
}

/// A series as the notation gives it.
fn series() -> BoxedStrategy<Series> {
    let single =
        (bare_run(), details()).prop_map(|(run, details)| Series { count: 1, items: vec![run], details });
    let flat = prop_oneof![single, repeated_run()].boxed();
    let deeper = prop_oneof![flat.clone(), list(flat.clone()), sets(repeated_run())].boxed();
    prop_oneof![flat, list(deeper.clone()), sets(list(deeper)), sets(sets(repeated_run())),].boxed()
}

/// Words and signs that texts are made of: those of the notation, and some that are near them.
fn word() -> impl Strategy<Value = &'static str> {
    let words = "x × * + , ; - / ( ) [ ] @ : . ' \" % & = 1 2 3 4 5 7 9 10 12 20 30 60 100 150 200 300 400 600 \
        1000 1500 2000 0.5 1,000 1:12 2:30 48 90 90s 2min 3min 8 m km k yd mile miles lap laps s sec min h \
        minutes hurdle hurdles mh to 5th over exchange zone flying fly with w run-in in-and-out in out and 50s \
        lane lanes L2 on the bend straight home back oval against wind other way from start 400m finish line \
        finishing at starting together pace race 5k per of best easy steady fast flat time trial jog walk \
        jogging slow standing changing ends rest rec r R recovery off every between sets set reps of full \
        then blocks warm-up drills note easy: Main set: rset lain \u{e9} \u{a0} \u{2032} 😀 1e9 0 99999";
    select(words.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>())
}

/// Words with or without spaces between them.
fn soup() -> impl Strategy<Value = String> {
    proptest::collection::vec((word(), any::<bool>()), 1..24).prop_map(|words| {
        words
            .iter()
            .fold(String::new(), |text, (word, is_spaced)| text + word + if *is_spaced { " " } else { "" })
    })
}

/// A workout from parts that mostly fit, so that many texts are blocks.
fn phrases() -> impl Strategy<Value = String> {
    let runs = [
        "200",
        "6 x 200",
        "3 x (4 x 200)",
        "(300 + 150)",
        "2 laps",
        "flying 30",
        "110h to hurdle 5",
        "20 min",
        "2 x (500, 300)",
        "1 mile",
        "4 x exchange zone 2",
        "800 in-and-out 50s",
        "(200)",
        "((300 + 200))",
        "1 x 400",
        "200 x 6",
        "easy 10 min",
        "2 x 3 x 100",
    ];
    let clauses = [
        "",
        "@ 32",
        "in 48-50s",
        "@ 90%",
        "@ 75/400",
        "5k pace",
        "easy",
        "time trial",
        "in lane 2",
        "lanes 2,4",
        "on the bend",
        "the other way",
        "from the 400 m start",
        "to the finish line",
        "starting together",
        "rest 90s",
        "off 3:00",
        "jog 200",
        "200 jog",
        "walk back",
        "standing",
        "changing ends",
        "(2')",
        "2min / 8min",
        "8min between sets",
        "90s rest",
        "standing 30s",
        "jog 100 in 60s",
        "full recovery",
        "R 8min",
        "from blocks",
        "w/ 60s jog",
    ];
    let joins = [" + ", ", ", " - ", " then ", "; ", " ", ") + (", " + (", ") "];
    let part = (select(runs.to_vec()), proptest::collection::vec(select(clauses.to_vec()), 0..4));
    let parts = proptest::collection::vec((part, select(joins.to_vec())), 1..4);
    (any::<bool>(), parts).prop_map(|(is_open, parts)| {
        let mut text = if is_open { "(".to_owned() } else { String::new() };
        for (index, ((run, clauses), join)) in parts.iter().enumerate() {
            text += if index > 0 { join } else { "" };
            text += run;
            clauses.iter().for_each(|clause| text += &format!(" {clause}"));
        }
        text
    })
}

/// Whether every problem lies inside the text, and says something.
fn check_problems(text: &str, problems: &[Problem]) -> Result<(), TestCaseError> {
    prop_assert!(!problems.is_empty(), "{text:?} is refused without a word");
    prop_assert!(problems.is_sorted_by_key(|problem| problem.span.start));
    for problem in problems {
        prop_assert!(text.get(problem.span.clone()).is_some(), "{problem:?} lies outside {text:?}");
        prop_assert!(!problem.message.is_empty());
    }
    Ok(())
}

/// Whether the block of a text, if it is one, is the same after printing and reading; whether it is one.
fn check_again(text: &str) -> Result<bool, TestCaseError> {
    match Block::parse(text) {
        Ok(block) => {
            prop_assert!(block.count() <= MOST_REPS);
            prop_assert_eq!(block.steps().len(), block.count() as usize);
            let printed = block.to_string();
            let read = Block::parse(&printed);
            prop_assert_eq!(read.as_ref(), Ok(&block), "{:?} prints as {:?}", text, printed);
            Ok(true)
        }
        Err(problems) => check_problems(text, &problems).map(|()| false),
    }
}

#[test]
fn what_was_printed_as_something_else_is_the_same_after_printing() {
    for text in [
        "5 x 350 with equal jog",
        "400, 800, 400 w/ half distance jog",
        "2 x 90s, 4 x 60s, equal float",
        "4 x 1000, 30 s per 100m",
        "20 min with strides",
        "88'hurdlers8strides!",
    ] {
        assert!(check_again(text).expect(text), "{text}");
    }
}

proptest! {
    // From a seed, so that what holds here holds wherever it is run.
    #![proptest_config(ProptestConfig {
        cases: 2000,
        rng_seed: RngSeed::Fixed(2027),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_block_is_the_same_after_printing_and_reading(series in series()) {
        prop_assume!(series.runs() <= MOST_REPS);
        let block = Block::new("", Body::Runs(Box::new(series)));
        let printed = block.to_string();
        let read = Block::parse(&printed);
        prop_assert_eq!(read.as_ref(), Ok(&block), "{}", printed);
    }

    #[test]
    fn whatever_is_read_from_words_of_the_notation_is_the_same_after_printing(text in soup()) {
        check_again(&text)?;
    }

    #[test]
    fn whatever_is_read_from_its_phrases_is_the_same_after_printing(text in phrases()) {
        check_again(&text)?;
    }

    #[test]
    fn any_text_is_a_block_or_has_problems(text in any::<String>()) {
        check_again(&text)?;
    }

    #[test]
    fn any_characters_within_a_workout_are_a_block_or_have_problems(
        before in "[0-9 x(]{0,6}",
        within in "\\PC{0,12}",
        after in "[0-9 a-z@,)+:/%'\"-]{0,24}",
    ) {
        check_again(&format!("{before}{within}{after}"))?;
    }
}

#[test]
fn the_phrases_are_blocks_often_enough_to_try_something() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;

    let mut runner = TestRunner::deterministic();
    let is_block = (0..1000).filter(|_| {
        let text = phrases().new_tree(&mut runner).expect("nothing is filtered").current();
        Block::parse(&text).is_ok()
    });
    let blocks = is_block.count();
    assert!(blocks >= 150, "only {blocks} of 1000");
}

/// Texts that random changes of workouts have led to, and that were not read again as they were printed.
#[test]
fn what_was_found_by_trying_prints_as_it_is_read() {
    for text in [
        "3000m as 1200 fast / 200 steady",
        "3 laps of 6000m fast/40m easy",
        "20 of 5 fast 5 easy",
        "A: 6 x 0200;M",
        "3 x 12.55m + 2 x fly 15.05m @ 2s",
        "15.05 m",
        "58R4,,DDD8,8,8,8,88/3\"Ex13 ,8/3\"E1",
    ] {
        check_again(text).unwrap_or_else(|problem| panic!("{text}: {problem}"));
    }
}
