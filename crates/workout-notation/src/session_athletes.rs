//! Who is in the groups of a session, and who is not there.

use crate::attendance::{
    Attendance, Said, attendance, attendances, fewer_reps, is_left_early, unknown_absence,
};
use crate::best_time::{BestLine, best_line, likely_race};
use crate::block::{Block, Body};
use crate::doubt::Doubt;
use crate::group_counts::group_counts;
use crate::group_labels::is_same;
use crate::lateness::{Late, Lateness};
use crate::lines::Line;
use crate::names_in_front::names_alone;
use crate::problem::Problem;
use crate::roster::{Roster, guide_in, unnamed};
use crate::session_reader::SessionReader;
use crate::workout::Part;

/// The most athletes that a text names.
const MOST_NAMES: usize = 500;

/// The fewest names that are athletes where a line has nothing but names.
const FEWEST_ALONE: usize = 3;

/// What to write instead of best times that are not understood.
const BEST_LINE_HELP: &str = "write for example `Bests: Ada 400 56, Ben 1500 4:12`, with names of the text, or `Bests: 800 2:10` for all";

/// What those are called who are named in no group.
const ATHLETES: &str = "Athletes";

/// The athletes of a line that has nothing but their names, behind the first line: `Uma, Vic, Wes`.
fn alone(line: &Line<'_>, index: usize) -> Option<Roster> {
    let text = line.lexed.text;
    // Below a line that is the time of day alone none stands in front.
    let is_below = index > 0 || line.start > 0;
    if let Some(count) = unnamed(text.trim_end_matches(['.', '!'])).filter(|_| is_below) {
        let athletes = (1..=count).map(|number| number.to_string()).collect();
        return Some(Roster { athletes, ..Roster::default() });
    }
    names_alone(text, FEWEST_ALONE).filter(|_| is_below && !text.contains(':'))
}

/// The names of athletes in the lines of a text, each once.
pub(crate) fn names(lines: &[Line<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        let named = line.named_group().map(|(_, roster)| roster);
        let roster = named.or_else(|| Some(line.group_label(index == 0)?.roster));
        let roster = roster.unwrap_or_default();
        let alone = alone(line, index).unwrap_or_default();
        let of_bests = best_line(line.lexed.text, &names);
        let of_bests = of_bests.iter().flat_map(BestLine::names);
        let of_line: Vec<String> = roster.names().chain(&alone.athletes).chain(of_bests).cloned().collect();
        for name in &of_line {
            if !names.contains(name) && names.len() < MOST_NAMES {
                names.push(name.clone());
            }
        }
    }
    names
}

impl SessionReader<'_> {
    /// Keeps the athletes of a line that has nothing but their names, where no group is named.
    pub(crate) fn athletes_alone(&mut self, line: &Line<'_>, index: usize, is_last: bool) -> bool {
        if !self.labels.is_empty() || !self.athletes.is_empty() {
            return false;
        }
        // `Squad: Ellis, Mo, Fern` below everything
        let has_runs = self.workout.blocks().any(|block| block.count() > 0);
        let named = line.named_group().filter(|_| is_last && has_runs);
        let roster = alone(line, index).or_else(|| {
            let (group, roster) = named?;
            self.athletes_called = Some(group.to_owned());
            Some(roster)
        });
        let Roster { athletes, guides, bests, .. } = roster.unwrap_or_default();
        (self.athletes, self.guides) = (athletes, guides);
        self.workout.bests.extend(bests);
        !self.athletes.is_empty()
    }

    /// Gives what is done to the athletes who are named alone, where no group came of the text.
    fn settle_athletes_alone(&mut self) {
        let athletes = std::mem::take(&mut self.athletes);
        let Some(first) = athletes.first().cloned() else { return };
        if self.workout.parts.iter().any(|part| part.group.is_some()) {
            self.push(Block::new(athletes.join(", "), Body::words(&athletes.join(", "))));
            return;
        }
        for part in &mut self.workout.parts {
            part.group = Some(self.athletes_called.clone().unwrap_or_else(|| ATHLETES.to_owned()));
            part.athletes.clone_from(&athletes);
            part.guides.clone_from(&self.guides);
        }
        // Numbers are nobody's names, and who is in a group that is named is sure.
        if first.parse::<usize>().is_err() && self.athletes_called.is_none() {
            self.doubts.push((first, Doubt::NamesAlone { names: athletes }));
        }
    }

    /// Says who is in the group that begins; nobody can be in two, or twice in one.
    pub(crate) fn name_athletes(&mut self, line: &Line<'_>, roster: Roster) {
        if let (false, Some(part)) = (roster.lanes.is_empty(), self.workout.parts.last_mut()) {
            part.lanes.clone_from(&roster.lanes);
        }
        if roster.is_empty() {
            return;
        }
        let text = line.lexed.text;
        let place = |words: &str| {
            let at = text.rfind(words).unwrap_or_default() + line.start;
            at..at + words.len()
        };
        let place_behind = |name: &str, words: &str| {
            let behind = text.find(name).map(|at| at + name.len());
            match behind.and_then(|behind| Some(behind + text[behind..].find(words)?)) {
                Some(at) => line.start + at..line.start + at + words.len(),
                None => place(words),
            }
        };
        let names: Vec<&String> = roster.names().collect();
        for (index, name) in names.iter().enumerate() {
            let is_known = self.workout.parts.iter().any(|part| part.athletes.contains(name));
            if is_known || names[..index].contains(name) {
                let problem = Problem::new(place(name), format!("`{name}` is named twice"));
                self.problems.push(problem.with_help("leave one out, or add to the name"));
            }
        }
        self.workout.bests.extend(roster.bests);
        for (name, words) in roster.remarks {
            let span = place_behind(&name, &words);
            self.remark(name, &words, span);
        }
        // At the runs of those who are there.
        let beside = roster.athletes.first();
        for name in &roster.absent {
            let at = beside.unwrap_or(name).clone();
            self.doubts.push((at, Doubt::LeftOut { name: name.clone() }));
        }
        let group = self.workout.parts.last().and_then(|part| part.group.clone());
        let has_athletes = |part: &Part| part.group == group && !part.athletes.is_empty();
        if roster.unnamed > 0 && self.workout.parts.iter().any(has_athletes) {
            return;
        }
        // Those without names are known by their numbers, through all groups.
        let numbered = self.workout.parts.iter().flat_map(|part| &part.athletes);
        let last = numbered.filter_map(|name| name.parse::<usize>().ok()).max().unwrap_or(0);
        let numbers = (last + 1..).map(|number| number.to_string()).take(roster.unnamed);
        if let Some(part) = self.workout.parts.last_mut() {
            part.athletes = roster.athletes.into_iter().chain(numbers).collect();
            part.guides = roster.guides;
        }
        let named: usize = self.workout.parts.iter().map(|part| part.athletes.len()).sum();
        self.refuse_many(named, line.start..line.start + line.lexed.text.len());
    }

    /// Reports more names than a text may have.
    fn refuse_many(&mut self, named: usize, span: std::ops::Range<usize>) {
        if named > MOST_NAMES {
            let message = format!("{named} names are too many: at most {MOST_NAMES}");
            self.problems.push(Problem::new(span, message).with_help("split it into several sessions"));
        }
    }

    /// What is said of one athlete: when they come, or what changes nothing; with another number it is reported.
    fn remark(&mut self, name: String, words: &str, span: std::ops::Range<usize>) {
        if let Some(lateness) = Lateness::read(words) {
            self.late.push(Late { name, lateness, span });
            return;
        }
        if let Some(reps) = fewer_reps(words) {
            self.workout.reps.push((name, reps));
            return;
        }
        if is_left_early(words) {
            // `Ben's only here until 7`
            let words = words.trim_start_matches(['\'', '’']).trim_start_matches("s ").to_owned();
            self.doubts.push((name.clone(), Doubt::LeavesEarly { name, words }));
            return;
        }
        if words.contains(|letter: char| letter.is_ascii_digit()) {
            let message = format!("`{words}` is about {name} alone, and is not understood");
            let help = if let Some(metres) = likely_race(words) {
                format!(
                    "for a best time write its distance too, for example `{name} ({metres} {words})`, or leave it out"
                )
            } else {
                format!(
                    "write for example `{name} 15 min late`, `{name} from 6.45`, `{name} only 3 reps` or `{name} (400 56)`, \
                     or leave it out"
                )
            };
            self.problems.push(Problem::new(span, message).with_help(help));
        } else {
            self.doubts.push((name.clone(), Doubt::SaidOfOne { name, words: words.to_owned() }));
        }
    }

    /// Reads a line that says who is not there, or comes late.
    pub(crate) fn attendance(&mut self, line: &Line<'_>) -> bool {
        let text = line.lexed.text;
        // `Ada away, Di here from 6.30`
        if let Some(said) = attendances(text, &self.names).filter(|said| said.len() > 1) {
            for (at, part, said) in said {
                self.attend(said, part, line.start + at);
            }
            return true;
        }
        if let Some(said) = attendance(text, &self.names) {
            self.attend(said, text, line.start);
            return true;
        }
        let Some(name) = unknown_absence(text) else { return false };
        self.doubts.push((name.to_owned(), Doubt::NotNamed { name: name.to_owned() }));
        self.workout.notes.push(text.to_owned());
        true
    }

    /// Keeps the best times that a line gives.
    pub(crate) fn bests(&mut self, line: &Line<'_>) -> bool {
        match best_line(line.lexed.text, &self.names) {
            None => return false,
            Some(BestLine::Read(bests)) => self.workout.bests.extend(bests),
            Some(BestLine::Unclear(from)) => {
                let text = line.lexed.text;
                let span = line.start + from..line.start + text.len();
                let problem = Problem::new(span, format!("`{}` is no list of best times", &text[from..]));
                self.problems.push(problem.with_help(BEST_LINE_HELP));
            }
        }
        true
    }

    /// What is said of somebody is kept as a note where the text says nothing else.
    fn settle_notes_alone(&mut self) {
        if self.problems.is_empty() && self.workout.blocks().next().is_none() {
            for note in std::mem::take(&mut self.workout.notes) {
                let body = Body::words(&note);
                self.push(Block::new(note, body));
            }
        }
    }

    /// Those of whom a text gives best times are who trains where it names nobody else.
    fn settle_names_of_bests(&mut self) {
        let parts = &self.workout.parts;
        let is_named = |name: &String| {
            self.athletes.contains(name)
                || self.absent.contains(name)
                || parts.iter().any(|part| part.athletes.contains(name))
        };
        let mut others: Vec<String> = Vec::new();
        for name in self.workout.bests.iter().filter_map(|best| best.name.as_ref()) {
            if !is_named(name) && !others.contains(name) {
                others.push(name.clone());
            }
        }
        let names_nobody = self.athletes.is_empty()
            && parts.iter().all(|part| part.group.is_none() && part.athletes.is_empty());
        if names_nobody && !others.is_empty() {
            self.athletes_called.get_or_insert_with(|| ATHLETES.to_owned());
            self.refuse_many(others.len(), 0..0);
            self.athletes = others;
            return;
        }
        self.doubts.extend(others.into_iter().map(|name| (name.clone(), Doubt::NotNamed { name })));
    }

    /// Keeps how many are in each of several groups, where a line says that.
    pub(crate) fn counts(&mut self, line: &Line<'_>) -> bool {
        let Some(groups) = group_counts(line.lexed.text).filter(|_| self.group_counts.is_empty()) else {
            return false;
        };
        self.group_counts = groups;
        true
    }

    /// Numbers those who are in the groups of the text; where it has none of these, all of them do all of it.
    fn settle_counts(&mut self) {
        let counts = std::mem::take(&mut self.group_counts);
        let mut last = 0;
        for (name, count) in &counts {
            let is_named = |part: &&mut Part| part.group.as_ref().is_some_and(|group| is_same(group, name));
            for part in self.workout.parts.iter_mut().filter(is_named) {
                if part.athletes.is_empty() {
                    part.athletes = (last + 1..=last + count).map(|number| number.to_string()).collect();
                }
            }
            last += count;
        }
        if last > 0 && self.athletes.is_empty() && self.workout.parts.iter().all(|part| part.group.is_none())
        {
            self.athletes = (1..=last).map(|number| number.to_string()).collect();
        }
    }

    /// Reports runs that one athlete of a group has alone: `Ada extra 2 x 100`.
    pub(crate) fn refuses_runs_of_one(&mut self, line: &Line<'_>) -> bool {
        let text = line.lexed.text;
        let begins = |name: &&String| {
            let behind = text
                .get(..name.len())
                .filter(|own| own.eq_ignore_ascii_case(name))
                .map(|_| &text[name.len()..]);
            behind.is_some_and(|behind| behind.starts_with(' ') && line.behind(name.len()).has_runs())
        };
        // `1` is the number of somebody without a name.
        let is_name = |name: &&String| name.contains(char::is_alphabetic);
        let Some(name) = self.names.iter().filter(is_name).find(begins) else { return false };
        let span = line.start..line.start + text.len();
        let problem =
            Problem::new(span, format!("these runs are of {name} alone, and a group has its runs together"));
        self.problems.push(
            problem.with_help("write `Note:` in front of them, or name who does them in a group of one"),
        );
        true
    }

    /// Takes in what a text says of some athletes, which begins at a byte of the whole.
    fn attend(&mut self, Attendance { names, said }: Attendance, text: &str, start: usize) {
        let behind = names.last().map_or(0, |(_, range)| range.end);
        for (name, _) in names {
            match &said {
                Said::Absent => {
                    self.absent.push(name.clone());
                    self.doubts.push((name.clone(), Doubt::LeftOut { name }));
                }
                Said::OfNobody => self.doubts.push((name.clone(), Doubt::NotNamed { name })),
                // `Ines with guide Tor`
                Said::With(others) => match guide_in(others) {
                    Some(guide) => self.guided.push((name, guide.to_owned())),
                    None => self.moves.push((name, others.clone())),
                },
                Said::Late | Said::Else => {
                    let words = text[behind..].trim();
                    let start = start + text.len() - text[behind..].trim_start().len();
                    let span = start..start + words.len();
                    match said {
                        Said::Late => self.remark(name, format!("late {words}").trim_end(), span),
                        _ => self.remark(name, words, span),
                    }
                }
            }
        }
    }

    /// Moves an athlete to the group whose name some words begin with, where there is one.
    fn settle_move(&mut self, name: String, others: &str) {
        let named = |part: &Part| {
            let group = part.group.as_deref().unwrap_or_default().trim_end_matches('s').to_lowercase();
            !group.is_empty() && others.trim_start_matches("the ").to_lowercase().starts_with(&group)
        };
        let Some(to) = self.workout.parts.iter().position(named) else {
            let words = format!("with {others}");
            self.doubts.push((name.clone(), Doubt::SaidOfOne { name, words }));
            return;
        };
        for part in &mut self.workout.parts {
            part.athletes.retain(|own| *own != name);
        }
        self.workout.parts[to].athletes.push(name);
    }

    /// Leaves out who is not there, and says what is said of athletes at the first block of their groups.
    pub(crate) fn settle_athletes(&mut self) {
        self.settle_counts();
        self.settle_notes_alone();
        self.settle_names_of_bests();
        self.settle_athletes_alone();
        for (name, guide) in std::mem::take(&mut self.guided) {
            let part = self.workout.parts.iter_mut().find(|part| part.athletes.contains(&name));
            part.into_iter().for_each(|part| part.guides.push((name.clone(), guide.clone())));
        }
        for (name, others) in std::mem::take(&mut self.moves) {
            self.settle_move(name, &others);
        }
        for (name, doubt) in std::mem::take(&mut self.doubts) {
            let named = self.workout.parts.iter().position(|part| part.athletes.contains(&name));
            let part = named.and_then(|at| self.workout.parts.get_mut(at));
            // A group of which nobody is there: it is said at the first block.
            let block = match part {
                Some(part) => part.blocks.first_mut(),
                None => self.workout.parts.iter_mut().flat_map(|part| &mut part.blocks).next(),
            };
            if let Some(block) = block
                && !block.doubts.contains(&doubt)
            {
                block.doubts.push(doubt);
            }
        }
        for part in &mut self.workout.parts {
            part.athletes.retain(|name| !self.absent.contains(name));
        }
    }
}
