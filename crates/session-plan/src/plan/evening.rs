//! The blocks of all crews, each crew on a clock of its own.

use std::collections::{BTreeMap, BTreeSet};

use wave_plan::{EveningPlan, ItineraryPlan, Party, SquadError, plan_evening};
use workout_notation::{Block, Doubt};

use crate::people::session::{BETWEEN_BLOCKS_S, Session};
use crate::people::venue::Venue;
use crate::plan::crew::{Part, crews};
use crate::plan::day_track::DayTrack;
use crate::plan::draft::Draft;
use crate::plan::fault::{PlanError, PlanFault};
use crate::plan::kept::Kept;
use crate::plan::laid::{Counted, Entry, Laid, lay_out};
use crate::plan::lane_move::LaneMove;
use crate::plan::lane_share::{own_lanes, share_out};
use crate::plan::plan_block::PlanBlock;
use crate::plan::timetable::{Timetable, shows_estimates};
use crate::plan::trial::Trial;
use crate::plan::warning::Warning;

/// The blocks of an evening, in the order in which they begin.
#[derive(Default)]
pub(crate) struct Evening {
    pub(crate) blocks: Vec<PlanBlock>,
    pub(crate) warnings: Vec<Warning>,
    /// The lanes that have been closed late, and what took their place.
    pub(crate) moved: Vec<LaneMove>,
    /// When the last is done, in seconds from the start, if that is known.
    pub(crate) ends_s: Option<f64>,
    /// Whether that was estimated.
    pub(crate) is_about: bool,
}

/// Lays out the blocks of a session and finds when each run goes; `kept` are the waves of a plan before, and
/// `trial` is a change that is tried.
///
/// # Errors
///
/// Every block that cannot be laid out.
pub(crate) fn evening(
    venue: &Venue,
    day: &DayTrack<'_>,
    session: &Session,
    kept: &Kept,
    trial: Option<&Trial>,
) -> Result<Evening, Vec<PlanError>> {
    let attempt = |in_the_way: &InTheWay| Attempt::new(venue, day, session, kept, trial, in_the_way);
    let mut in_the_way = InTheWay { usual: day.booked(), of_draft: BTreeMap::new() };
    let mut found = attempt(&in_the_way).or_else(|errors| {
        // What is there at the other end of the booking need not be in the way.
        in_the_way.usual = day.always();
        if day.has_hours() { attempt(&in_the_way).map_err(|_| errors) } else { Err(errors) }
    })?;
    // A plan shows when each block is run, and that shows what is in the way then. Each pass lays out with more of it, so
    // that it ends.
    for pass in 0.. {
        let mut needed = found.in_the_way(day);
        needed.retain(|(at, needed)| {
            let used = in_the_way.of(*at);
            if pass == 0 { used != needed } else { !covers(used, needed) }
        });
        if !day.has_hours() || needed.is_empty() {
            break;
        }
        for (at, needed) in needed {
            let used = in_the_way.of_draft.entry(at).or_insert_with(|| vec![false; needed.len()]);
            let all = if pass < MOST_PASSES { vec![false; needed.len()] } else { day.booked() };
            for ((used, needed), all) in used.iter_mut().zip(needed).zip(all) {
                *used |= needed || all;
            }
        }
        found = attempt(&in_the_way)?;
    }
    Ok(found.tell(day, session, kept))
}

/// How often blocks are laid out anew because something else is in the way when they are run, before those whose time goes
/// on changing are laid out with all that is in the way during the booking.
const MOST_PASSES: usize = 4;

/// The hazards and closed lanes that blocks are laid out with.
struct InTheWay {
    usual: Vec<bool>,
    /// Those of drafts whose time is known, by crew and draft.
    of_draft: BTreeMap<(usize, usize), Vec<bool>>,
}

impl InTheWay {
    fn of(&self, at: (usize, usize)) -> &[bool] {
        self.of_draft.get(&at).unwrap_or(&self.usual)
    }
}

fn covers(used: &[bool], needed: &[bool]) -> bool {
    used.iter().zip(needed).all(|(used, needed)| *used || !needed)
}

/// Blocks laid out and scheduled.
struct Attempt<'a> {
    laid: Vec<Laid<'a>>,
    lanes: Vec<Vec<Vec<u8>>>,
    planned: Vec<Vec<ItineraryPlan>>,
    warnings: Vec<Warning>,
}

impl<'a> Attempt<'a> {
    fn new(
        venue: &Venue,
        day: &DayTrack<'_>,
        session: &'a Session,
        kept: &Kept,
        trial: Option<&'a Trial>,
        in_the_way: &InTheWay,
    ) -> Result<Self, Vec<PlanError>> {
        let (mut warnings, mut errors) = (Vec::new(), Vec::new());
        let mut counted = Counted::default();
        let mut laid: Vec<Laid<'_>> = Vec::new();
        let crews = crews(session, trial);
        let named: Vec<(Part, BTreeSet<u8>)> =
            crews.iter().map(|crew| (crew.part, crew.named_lanes())).collect();
        for (place, mut crew) in crews.into_iter().enumerate() {
            // Who runs once, as in a race, needs no lane of their own.
            if crew.blocks.iter().map(Block::count).sum::<u32>() > 1 {
                let is_there = |part: Part| part == crew.part;
                let others =
                    named.iter().enumerate().filter(|(other, (part, _))| *other != place && is_there(*part));
                let named = others.flat_map(|(_, (_, named))| named).copied();
                let chosen = laid.iter().filter(|laid| is_there(laid.crew.part)).flat_map(Laid::single_lanes);
                crew.taken = named.chain(chosen).collect();
            }
            let goes_on = crew.goes_on;
            let before = laid.last().filter(|_| goes_on).map_or(0, |before| before.drafts.len());
            let number = laid.len() - usize::from(goes_on);
            let track = |draft: usize| day.with(in_the_way.of((number, before + draft)));
            let next = lay_out(venue, &track, crew, &mut counted, &mut warnings, &mut errors);
            match laid.last_mut().filter(|_| goes_on) {
                Some(before) => before.go_on(next),
                None => laid.push(next),
            }
        }
        if !errors.is_empty() {
            return Err(errors);
        }
        let (mut lanes, mut planned) = (Vec::new(), Vec::new());
        // Who is on the track at once: all together, then each crew with its own, then all together again.
        while lanes.len() < laid.len() {
            let (done, next) = laid.split_at_mut(lanes.len());
            let part = next[0].crew.part;
            let end = next.iter().position(|laid| laid.crew.part != part).unwrap_or(next.len());
            let at_once = &mut next[..end];
            at_once.iter_mut().for_each(|laid| laid.begin_after(done, &planned));
            let drafts: Vec<&[Draft<'_>]> = at_once.iter().map(|laid| laid.drafts.as_slice()).collect();
            let mut shared = share_out(&drafts, kept);
            planned.extend(schedule(session, at_once, &shared, kept).or_else(|_| {
                // Somebody who may not use every lane can need one of another crew's share.
                shared = own_lanes(&drafts);
                schedule(session, at_once, &shared, kept).map_err(|error| vec![error])
            })?);
            lanes.extend(shared);
        }
        for ((laid, lanes), planned) in laid.iter().zip(&lanes).zip(&mut planned) {
            for ((draft, lanes), planned) in laid.drafts.iter().zip(lanes).zip(planned) {
                kept.keep_lanes(draft, lanes, planned);
            }
        }
        Ok(Self { laid, lanes, planned, warnings })
    }

    /// What is in the way while each draft of each crew is run.
    fn in_the_way(&self, day: &DayTrack<'_>) -> Vec<((usize, usize), Vec<bool>)> {
        let of_crew = |(crew, planned): (usize, &Vec<ItineraryPlan>)| {
            let of_draft = |(draft, planned): (usize, &ItineraryPlan)| {
                ((crew, draft), day.during(planned.begins_s, planned.end_s))
            };
            planned.iter().enumerate().map(of_draft).collect::<Vec<_>>()
        };
        self.planned.iter().enumerate().flat_map(of_crew).collect()
    }

    /// The blocks with their times.
    fn tell(self, day: &DayTrack<'_>, session: &Session, kept: &Kept) -> Evening {
        let drafts = self.laid.iter().flat_map(|laid| &laid.drafts);
        let mut moved: Vec<LaneMove> = Vec::new();
        for of_part in drafts.flat_map(|draft| &draft.moved) {
            if !moved.contains(of_part) {
                moved.push(of_part.clone());
            }
        }
        let mut evening = Evening { warnings: self.warnings, moved, ..Evening::default() };
        let mut begun: Vec<(f64, PlanBlock)> = Vec::new();
        let mut ends_s = Some(0.0_f64);
        for ((laid, lanes), planned) in self.laid.iter().zip(&self.lanes).zip(&self.planned) {
            let (now_s, is_about) = tell(day, laid, lanes, planned, kept, &mut begun);
            let is_known = !is_about || shows_estimates(session, &laid.crew);
            ends_s = ends_s.filter(|_| is_known).map(|ends_s| ends_s.max(now_s));
            evening.is_about |= is_about;
            if laid.has_break && is_known && session.between_blocks_s.is_none() {
                let assumed = Warning::BreakAssumed { break_s: BETWEEN_BLOCKS_S };
                if !evening.warnings.contains(&assumed) {
                    evening.warnings.push(assumed);
                }
            }
        }
        begun.sort_by(|a, b| a.0.total_cmp(&b.0));
        evening.blocks = begun.into_iter().map(|(_, block)| block).collect();
        tell_once(&mut evening.blocks);
        // A session of notes alone, or of nothing, has no end worth telling.
        evening.ends_s = ends_s.filter(|ends_s| *ends_s > 0.0);
        evening
    }
}

/// Leaves what is unsure about the whole evening at the first block that says it: the warm-up of each group would say it
/// again.
fn tell_once(blocks: &mut [PlanBlock]) {
    let mut told: Vec<Doubt> = Vec::new();
    for block in blocks {
        block.read.doubts.retain(|doubt| {
            let is_known = told.contains(doubt);
            let is_of_all = matches!(
                doubt,
                Doubt::InTheEvening { .. } | Doubt::NoTimeForNote { .. } | Doubt::LeftOut { .. }
            );
            told.extend(is_of_all.then(|| doubt.clone()));
            !is_known
        });
    }
}

/// When the waves of each draft of each crew go.
fn schedule(
    session: &Session,
    laid: &[Laid<'_>],
    lanes: &[Vec<Vec<u8>>],
    kept: &Kept,
) -> Result<Vec<Vec<ItineraryPlan>>, PlanError> {
    let itinerary =
        |((draft, after_s), lanes): ((&Draft<'_>, &f64), &Vec<u8>)| draft.itinerary(*after_s, lanes.clone());
    let party = |(laid, lanes): (&Laid<'_>, &Vec<Vec<u8>>)| Party {
        begins_s: laid.crew.begins_s,
        itineraries: laid.drafts.iter().zip(&laid.after_s).zip(lanes).map(itinerary).collect(),
    };
    let parties: Vec<Party> = laid.iter().zip(lanes).map(party).collect();
    if parties.iter().all(|party| party.itineraries.is_empty()) {
        return Ok(vec![Vec::new(); laid.len()]);
    }
    let waves = |draft: &Draft<'_>| {
        draft.entrants.iter().map(|entrant| kept.wave(draft, entrant.name())).collect::<Vec<_>>()
    };
    let before: Vec<Vec<Vec<Option<usize>>>> = if kept.is_empty() {
        Vec::new()
    } else {
        laid.iter().map(|laid| laid.drafts.iter().map(waves).collect()).collect()
    };
    let rules = &session.squad.timing;
    let planned: Result<EveningPlan, SquadError> = plan_evening(&parties, rules, &before);
    planned.map(|planned| planned.parties).map_err(|error| {
        // Which block it is shows when each is planned alone.
        let drafts = laid.iter().flat_map(|laid| &laid.drafts).collect::<Vec<_>>();
        let itineraries = parties.iter().flat_map(|party| &party.itineraries);
        let cannot = itineraries.map(|itinerary| {
            let alone = Party { begins_s: 0.0, itineraries: vec![itinerary.clone()] };
            plan_evening(&[alone], rules, &[]).err()
        });
        let found = drafts.iter().zip(cannot).find_map(|(draft, error)| Some((draft, error?)));
        let (draft, error) = found.unwrap_or((&drafts[0], error));
        PlanError { at: draft.at, fault: PlanFault::Squad(error).at_lanes(&draft.steps[0]) }
    })
}

/// The blocks of a crew with their times, and when each begins; gives the end, and whether that was estimated.
fn tell(
    day: &DayTrack<'_>,
    laid: &Laid<'_>,
    lanes: &[Vec<u8>],
    planned: &[ItineraryPlan],
    kept: &Kept,
    begun: &mut Vec<(f64, PlanBlock)>,
) -> (f64, bool) {
    let (mut now_s, mut is_about) = (laid.crew.begins_s, laid.crew.begins_about);
    let mut runs = laid.drafts.iter().zip(lanes).zip(planned);
    for entry in &laid.entries {
        match entry {
            Entry::Note(rest_s, note) => {
                now_s += rest_s;
                begun.push((now_s, note.as_ref().clone().beginning(now_s, is_about)));
                now_s += note.lasts_s.unwrap_or(0.0);
                is_about |= note.lasts_about;
            }
            Entry::Runs(parts) => {
                let begins_about = is_about;
                let mut whole: Option<(f64, PlanBlock)> = None;
                for ((draft, lanes), planned) in runs.by_ref().take(*parts) {
                    let timetable =
                        Timetable { day, crew: &laid.crew, draft, planned, lanes, begins_about: is_about };
                    let part = timetable.block(kept);
                    match &mut whole {
                        Some((begins_s, block)) => block.join(part, planned.end_s - *begins_s),
                        None => whole = Some((planned.begins_s, part)),
                    }
                    is_about |= !draft.is_timed();
                    now_s = planned.end_s;
                }
                begun.extend(
                    whole.map(|(begins_s, block)| (begins_s, block.beginning(begins_s, begins_about))),
                );
            }
        }
    }
    (now_s, is_about)
}
