//! What in a whole session could be meant otherwise.

use crate::block::{Block, Body};
use crate::doubt::Doubt;
use crate::heading_words::has_word;
use crate::line_words::{Word, words};
use crate::names_in_front::names_alone;
use crate::roster::{is_sign, may_be_group};
use crate::workout::Workout;

/// Words for runs, which name no group.
#[rustfmt::skip]
const NAMES_OF_RUNS: [&str; 28] = [
    "ladder", "ladders", "pyramid", "pyramids", "clock", "diagonals", "bonus", "flush", "rep", "reps", "intervals",
    "efforts", "starts", "blocks", "block", "accelerations", "activation", "game", "games", "day", "option", "hills",
    "bends", "flying", "then", "first", "last", "optional",
];

impl Workout {
    /// `Relay (Amy, Beth, Cat, Dee): 3 x 4x100`: four runs of each could be the four legs.
    pub(crate) fn doubt_relays(&mut self) {
        const LEGS: u32 = 4;
        let is_relay = |words: &str| has_word(words, &["relay", "relays"]);
        for part in &mut self.parts {
            let of_group = part.group.as_deref().is_some_and(is_relay);
            for block in &mut part.blocks {
                let has_legs = block.count() > 0 && block.count() % LEGS == 0;
                let is_named = of_group || block.label.as_deref().is_some_and(is_relay);
                if has_legs && is_named && !block.doubts.contains(&Doubt::RelayOrRuns) {
                    block.doubts.push(Doubt::RelayOrRuns);
                }
            }
        }
    }

    /// Says of drills without a length, in front of runs, that no time is allowed for them.
    pub(crate) fn doubt_drills(&mut self) {
        const DRILLS: [&str; 7] =
            ["drills", "mobility", "stretches", "stretching", "plyometrics", "technique", "skips"];
        let has_runs = |blocks: &[Block]| blocks.iter().any(|block| block.count() > 0);
        for place in 0..self.parts.len() {
            let Some((part, behind)) = self.parts[place..].split_first_mut() else { continue };
            let is_everybody = part.group.is_none();
            let runs_follow = is_everybody && behind.iter().any(|part| has_runs(&part.blocks));
            for at in 0..part.blocks.len() {
                let has_runs_behind = runs_follow || has_runs(&part.blocks[at + 1..]);
                let block = &mut part.blocks[at];
                let Body::Note { words: said, lasts_s: None, length: None } = &block.body else { continue };
                let words = words(said);
                let note = words.iter().find(|word| word.is_one(&DRILLS)).map(|word| word.text.to_owned());
                let has_number = words.iter().any(Word::is_number);
                block.doubts.extend(
                    note.filter(|_| has_runs_behind && !has_number).map(|note| Doubt::NoTimeForNote { note }),
                );
            }
        }
    }

    /// Says of labels that could be groups, where there are groups, that they are none.
    pub(crate) fn doubt_labels(&mut self) {
        let groups: Vec<String> = self.parts.iter().filter_map(|part| part.group.clone()).collect();
        if groups.is_empty() {
            self.doubt_order();
            return;
        }
        for block in self.parts.iter_mut().flat_map(|part| &mut part.blocks) {
            let label = block.label.clone().filter(|_| block.count() > 0);
            let is_new = |label: &String| {
                may_be_group(label) && !groups.contains(label) && !has_word(label, &NAMES_OF_RUNS)
            };
            let label = label.filter(is_new);
            block.doubts.extend(label.map(|label| Doubt::LabelOrGroup { label }));
        }
    }

    /// `A: 6 x 200` above `B: 4 x 300`, `Ada: 4 x 60` above `Ben: 3 x 150`: parts of one session, or its groups.
    fn doubt_order(&mut self) {
        let is_letter =
            |label: &str| is_sign(label) && !label.starts_with(|sign: char| sign.is_ascii_digit());
        let is_name = |label: &str| {
            let is_one_word = label.len() > 1 && !label.contains(' ');
            is_one_word
                && names_alone(label, 1).is_some()
                && may_be_group(label)
                && !has_word(label, &NAMES_OF_RUNS)
        };
        let may_be_one = |block: &&mut Block| {
            block.count() > 0
                && block.label.as_deref().is_some_and(|label| is_letter(label) || is_name(label))
        };
        let mut labelled: Vec<&mut Block> =
            self.parts.iter_mut().flat_map(|part| &mut part.blocks).filter(may_be_one).collect();
        let mut labels: Vec<String> = labelled.iter().filter_map(|block| block.label.clone()).collect();
        labels.dedup();
        if let ([first, ..], true) = (labelled.as_mut_slice(), labels.len() > 1) {
            first.doubts.push(Doubt::LabelsInTurn { labels });
        }
    }

    /// Says of a title about throws and jumps, or about another track, that nothing is planned for it.
    pub(crate) fn doubt_title(&mut self) {
        const HAZARDS: [&str; 11] = [
            "hammer", "discus", "javelin", "shot", "throwers", "throws", "throwing", "vault", "cage", "pit",
            "runway",
        ];
        const IN_USE: [&str; 11] =
            ["use", "from", "till", "until", "til", "infield", "on", "in", "throwing", "training", "after"];
        let Some(title) = &self.title else { return };
        let words = words(title);
        let has = |some: &[&str]| words.iter().any(|word| word.is_one(some));
        let is_track = has(&["indoor", "indoors"])
            || words.windows(2).any(|pair| pair[0].is_number() && pair[1].is_one(&["lane", "lanes"]));
        let doubt = if has(&HAZARDS) && has(&IN_USE) {
            Doubt::HazardInTitle { title: title.clone() }
        } else if is_track {
            Doubt::TrackInTitle { title: title.clone() }
        } else {
            return;
        };
        let first = self.parts.iter_mut().flat_map(|part| &mut part.blocks).next();
        first.into_iter().for_each(|block| block.doubts.push(doubt.clone()));
    }
}
