//! Every command and flag.

use std::convert::Infallible;
use std::ffi::OsString;
use std::path::PathBuf;

use chrono::NaiveTime;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use lane_distance::LaneNumber;
use plan_sheet::{FORMATS, Format};
use session_plan::{LaneClosure, PageAddress, Since, TimeOfDay, TimeOfDayError, Wind};
use workout_notation::visible_line;

/// Turns a written workout into places on a real track: where each repetition starts and finishes in
/// each lane, by the paint on the ground.
#[derive(Debug, Parser)]
#[command(name = "toeline", version, max_term_width = 80)]
pub(crate) struct Flags {
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

impl Flags {
    /// Reads the command line. Where it is wrong the process ends with a message about it, in which everything can be
    /// seen.
    pub(crate) fn read() -> Self {
        let given: Vec<OsString> = std::env::args_os().collect();
        Self::try_parse_from(&given).unwrap_or_else(|_| {
            Self::parse_from(
                given.iter().map(|argument| visible_line(&argument.to_string_lossy()).into_owned()),
            )
        })
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Lay out a workout, a text or session files on a track
    ///
    /// Write a workout as coaches do: "6 x 200 in lane 2", "3 x 300 @ 48s rest 3min",
    /// "4 x 150 in lanes 2-5". A text file holds a whole session as a coach would send it: a title and a
    /// date in front, a line for each block, headings for groups. The plan opens with how each block was read.
    #[command(
        after_help = "Examples:\n  toeline plan \"6 x 200 in lane 2, 90s\" --closed 1\n  toeline plan sessions/wrenbeck/tuesday-sprints.yaml --out tuesday.pdf"
    )]
    Plan {
        /// A workout, session files (.yaml or .yml), text files, or - for standard input
        #[arg(required = true, value_name = "WORKOUT|FILE")]
        workouts: Vec<String>,
        /// Print everything there is to say, on more than a screen
        #[arg(long)]
        full: bool,
        #[command(flatten)]
        squad: SquadFlags,
        #[command(flatten)]
        late: LateFlags,
        #[command(flatten)]
        print: PrintFlags,
        /// Where the page (.html) is published: .pdf and .png sheets have a code of it to scan
        #[arg(long, value_name = "URL")]
        page_address: Option<PageAddress>,
        /// What .pdf and .png sheets have as well, such as cards or cards,lanes,care
        #[arg(long, value_enum, value_name = "PARTS", value_delimiter = ',')]
        with: Vec<Extra>,
        #[command(flatten)]
        common: Common,
    },
    /// Show the week at a glance: runs, real metres by pace, bends and recoveries for each group
    ///
    /// A folder stands for every session file in it and in its subfolders.
    #[command(
        after_help = "Examples:\n  toeline week sessions/wrenbeck\n  toeline week sessions/wrenbeck --out week.ics"
    )]
    Week {
        /// Session files, or folders of them
        #[arg(required = true, value_name = "PATH")]
        paths: Vec<PathBuf>,
        #[command(flatten)]
        print: PrintFlags,
        #[command(flatten)]
        common: Common,
    },
    /// Show where one repetition can start and finish, best first
    #[command(
        after_help = "Examples:\n  toeline spots \"300 in lane 2\"\n  toeline spots \"150 in lane 3\" --track sessions/wrenbeck/track.yaml"
    )]
    Spots {
        /// One repetition, such as "150 in lane 2"
        #[arg(value_parser = text)]
        workout: String,
        #[command(flatten)]
        common: Common,
    },
    /// Measure the real distance from one place to another
    ///
    /// A place is a painted mark, or some metres past or back from one: "400 m start", "finish line",
    /// "400 m start + 5", "200 m start - 2.5".
    #[command(
        after_help = "Examples:\n  toeline measure --lane 2 --from \"400 m start\" --to \"200 m start + 5\"\n  toeline measure --lane 3 --from \"200 m start\" --to \"finish line\" --time 31.4"
    )]
    Measure {
        /// The lane to run in
        #[arg(long)]
        lane: u8,
        /// The lane to finish in, after changing lanes by the shortest way
        #[arg(long, value_name = "LANE")]
        to_lane: Option<u8>,
        /// Where the run starts
        #[arg(long, value_name = "PLACE", value_parser = text)]
        from: String,
        /// Where the run finishes
        #[arg(long, value_name = "PLACE", value_parser = text)]
        to: String,
        /// Extra whole laps
        #[arg(long, default_value_t = 0, value_parser = clap::value_parser!(u32).range(..=100))]
        laps: u32,
        /// Run clockwise
        #[arg(long)]
        the_other_way: bool,
        /// The time run, such as 31.4 or 1:12
        #[arg(long, value_parser = seconds)]
        time: Option<f64>,
        /// The intended distance, such as 200 or 1km
        #[arg(long, value_name = "DISTANCE", value_parser = distance, requires = "time")]
        intended: Option<f64>,
        /// The line run, in metres outside the lane's inner line
        #[arg(long, value_name = "METRES", value_parser = running_line)]
        running_line: Option<f64>,
        #[command(flatten)]
        common: Common,
    },
    /// Lay out the curved start line of a group that breaks at once
    #[command(after_help = "Examples:\n  toeline curve 1500\n  toeline curve 1500 --closed 1")]
    Curve {
        /// The race distance, such as 1500
        #[arg(value_parser = distance, required_unless_present = "at")]
        distance: Option<f64>,
        /// Where to start in the innermost open lane, instead of a distance
        #[arg(long, value_name = "PLACE", value_parser = text, conflicts_with = "distance")]
        at: Option<String>,
        #[command(flatten)]
        common: Common,
    },
    /// Find every fault in session and track files
    #[command(
        after_help = "Examples:\n  toeline check sessions/wrenbeck/track.yaml\n  toeline check sessions/wrenbeck/tuesday-sprints.yaml"
    )]
    Check {
        /// Session and track files
        #[arg(required = true, value_name = "FILE")]
        files: Vec<String>,
        #[command(flatten)]
        common: Common,
    },
    /// Show the lap and stagger of each lane
    #[command(after_help = "Examples:\n  toeline lanes\n  toeline lanes --track indoor-200")]
    Lanes {
        #[command(flatten)]
        common: Common,
    },
    /// List the paint in a lane, walking from the finish line
    #[command(
        after_help = "Examples:\n  toeline marks --lane 2\n  toeline marks --lane 5 --track sessions/wrenbeck/track.yaml"
    )]
    Marks {
        /// The lane to walk
        #[arg(long)]
        lane: u8,
        #[command(flatten)]
        common: Common,
    },
    /// Write a text out as a session file
    ///
    /// Each block stands in the one form of all those that mean the same; what was not read, and what could be read
    /// in another way, stands above it as a comment.
    #[command(
        after_help = "Examples:\n  toeline session \"wu; 4 x 60 walk back; 3 x 150 @ 20, 5 min\"\n  toeline session \"6 x 400 @ 75, 90s\" --out tuesday.yaml"
    )]
    Session {
        /// A text file, - for standard input, or a workout
        #[arg(value_name = "TEXT")]
        text: String,
        /// Write to a file instead; it ends in .yaml or .yml
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Serve the planner on a page, to this machine alone unless told otherwise
    ///
    /// It prints the page's address, asks nothing of any other machine, and ends with Ctrl-C.
    #[cfg(feature = "serve")]
    #[command(
        after_help = "Examples:\n  toeline serve\n  toeline serve --port 0 --sessions sessions/wrenbeck"
    )]
    Serve(ServeFlags),
    /// Write the planner as a page that works without a server and without a network
    ///
    /// Any web server or club site can hold the folder. A phone that has opened the page once plans, prints and times
    /// with it at the track, with no signal.
    #[command(after_help = "Examples:\n  toeline publish site\n  toeline publish club/planner")]
    Publish {
        /// A new or an empty folder, or one that was published before
        #[arg(value_name = "DIR")]
        folder: PathBuf,
    },
    /// Print the JSON Schema of session or track files, for an editor
    #[command(after_help = "Examples:\n  toeline schema session\n  toeline schema track")]
    Schema {
        /// The kind of file
        kind: Kind,
    },
    /// Show how to write a workout
    #[command(after_help = "Examples:\n  toeline notation\n  toeline notation --all", after_long_help = notation_help())]
    Notation {
        /// Every form, on more than a screen
        #[arg(long)]
        all: bool,
    },
    /// Print the completions for a shell
    #[command(after_help = "Examples:\n  toeline completions bash\n  toeline completions zsh")]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page, or that of a command or a subject
    ///
    /// Subjects: commands, workouts, session-file, track-file, places, metres, printed-sheet, phone-page, planner, limits.
    /// A terminal with a reader of such pages opens it there; else it is printed as they are written.
    #[command(after_help = "Examples:\n  toeline manual plan\n  toeline manual session-file")]
    Manual {
        /// A command, or a subject such as session-file
        #[arg(value_name = "PAGE", value_parser = text)]
        page: Option<String>,
    },
}

impl Command {
    /// The options shared by the commands that answer about a track or a session.
    pub(crate) const fn common(&self) -> Option<&Common> {
        match self {
            Self::Plan { common, .. }
            | Self::Week { common, .. }
            | Self::Spots { common, .. }
            | Self::Measure { common, .. }
            | Self::Curve { common, .. }
            | Self::Check { common, .. }
            | Self::Lanes { common }
            | Self::Marks { common, .. } => Some(common),
            #[cfg(feature = "serve")]
            Self::Serve(_) => None,
            Self::Session { .. }
            | Self::Publish { .. }
            | Self::Schema { .. }
            | Self::Notation { .. }
            | Self::Completions { .. }
            | Self::Manual { .. } => None,
        }
    }
}

/// Where the page is served, and what with it.
#[cfg(feature = "serve")]
#[derive(Debug, Args)]
pub(crate) struct ServeFlags {
    /// The port; 0 picks one that is free
    #[arg(long, value_name = "N", default_value_t = 8080)]
    pub(crate) port: u16,
    /// The address to listen at; 0.0.0.0 lets every machine of the network in
    #[arg(long, value_name = "ADDR", default_value = "127.0.0.1", value_parser = text)]
    pub(crate) host: String,
    /// A folder whose session files and texts (.yaml, .yml, .txt) the page can open and save
    #[arg(long, value_name = "DIR")]
    pub(crate) sessions: Option<PathBuf>,
}

/// Who runs, if the workout does not name anybody.
#[derive(Debug, Default, Args)]
pub(crate) struct SquadFlags {
    /// Number of athletes, to run in waves over the lanes
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u8).range(1..=60))]
    pub(crate) athletes: Option<u8>,
    /// Lanes for the squad, such as 2-6
    #[arg(long, value_name = "LANES", value_parser = lanes)]
    pub(crate) lanes: Option<Lanes>,
    /// Plan targets that nobody has ever run, and cycles shorter than their run
    #[arg(long)]
    pub(crate) force: bool,
}

/// What has changed since a session was written.
#[derive(Debug, Default, Args)]
#[command(next_help_heading = "Late changes")]
pub(crate) struct LateFlags {
    /// When the session starts, such as 18:30 or 6.30pm
    #[arg(long, value_name = "TIME")]
    pub(crate) start: Option<TimeOfDay>,
    /// When a group or an athlete begins that comes late, such as sprinters=18:20 or Ada=18:20; repeat for several
    #[arg(long, value_name = "NAME=TIME", value_parser = late)]
    pub(crate) late: Vec<(String, TimeOfDay)>,
    /// Absent athletes, such as Ada or Ada,Ben
    #[arg(long, value_name = "NAME", value_parser = text, value_delimiter = ',')]
    pub(crate) without: Vec<String>,
    /// How many repetitions of each block an athlete does, such as Ben=4; repeat for several
    #[arg(long, value_name = "NAME=NUMBER", value_parser = reps)]
    pub(crate) reps: Vec<(String, u32)>,
    /// A hazard that is in use, such as javelin=now or javelin=18:30; repeat for several
    #[arg(long, value_name = "HAZARD=TIME", value_parser = hazard)]
    pub(crate) hazard: Vec<(String, Since)>,
    /// The wind now, such as "3 m/s against on the home straight"
    #[arg(long, value_name = "WIND", value_parser = wind)]
    pub(crate) wind: Option<Wind>,
    /// Blocks to leave out, by their numbers in the plan, such as 3 or 3,5
    #[arg(long, value_name = "BLOCK", value_delimiter = ',')]
    pub(crate) skip: Vec<usize>,
}

/// How plans are printed.
#[derive(Clone, Copy, Debug, Default, Args)]
pub(crate) struct PrintFlags {
    /// Paper size of .pdf and .png sheets
    #[arg(long, value_enum, default_value_t)]
    pub(crate) paper: Paper,
    /// Replace files in the place of further pages (plan-2.png) even if they are not toeline's own
    #[arg(long)]
    pub(crate) overwrite: bool,
}

/// A list of lanes.
#[derive(Clone, Debug)]
pub(crate) struct Lanes(pub(crate) Vec<LaneNumber>);

#[derive(Debug, Args)]
pub(crate) struct Common {
    /// A built-in track, or a track file [built in: standard, standard-6, double-bend-1,
    /// double-bend-2, double-bend-3, indoor-200, oval-300, yards-440; default: standard]
    #[arg(long, value_name = "NAME|FILE")]
    pub(crate) track: Option<String>,
    /// Closed lanes, such as 1,2 or 1-3; for a part of an evening 3=18:45 or 3=18:45-19:15; repeat for several
    #[arg(long, value_name = "LANES[=TIME]", value_parser = closed)]
    closed: Vec<LaneClosure>,
    /// Form of the answer on standard output
    #[arg(long, value_parser = formats())]
    pub(crate) format: Option<&'static Format>,
    #[arg(long, value_name = "FILE", help = out_help())]
    pub(crate) out: Option<PathBuf>,
    /// When to use colour and bold type
    #[arg(long, value_enum, default_value_t)]
    pub(crate) color: Color,
}

/// The examples of `toeline notation`, and every form.
fn notation_help() -> String {
    format!("Examples:\n  toeline notation\n  toeline notation --all\n\n{}", plan_sheet::notation_text())
}

/// The kinds of file that `--format` names.
fn formats() -> impl TypedValueParser<Value = &'static Format> {
    let named = FORMATS.iter().filter_map(|format| Some(PossibleValue::new(format.name?).help(format.what)));
    PossibleValuesParser::new(named).try_map(|name| Format::named(&name).ok_or("not a known format"))
}

fn out_help() -> String {
    let of = |answers: &str| {
        let kinds = FORMATS.iter().filter(|format| format.answers() == answers);
        kinds.map(|format| format!(".{} ({})", format.ending, format.what)).collect::<Vec<_>>().join(", ")
    };
    let mut all: Vec<&str> = FORMATS.iter().map(Format::answers).collect();
    all.dedup();
    let lists: Vec<String> =
        all.into_iter().map(|answers| format!("For {answers}: {}", of(answers))).collect();
    format!("Write to a file instead; its ending picks the kind. {}", lists.join(". "))
}

/// A text, with what cannot be seen replaced.
fn text(text: &str) -> Result<String, Infallible> {
    Ok(visible_line(text).into_owned())
}

fn seconds(text: &str) -> Result<f64, String> {
    workout_notation::seconds(text).map_err(|problem| sentence(&problem))
}

fn distance(text: &str) -> Result<f64, String> {
    workout_notation::distance(text).map_err(|problem| sentence(&problem))
}

impl Common {
    /// The numbers of the lanes that are closed.
    pub(crate) fn closed(&self) -> Vec<u8> {
        self.closed
            .iter()
            .filter(|closed| !is_for_a_part(closed))
            .flat_map(|closed| &closed.lanes)
            .copied()
            .collect()
    }

    /// The lanes that are closed for a part of the evening.
    pub(crate) fn closures(&self) -> Vec<LaneClosure> {
        self.closed.iter().filter(|closed| is_for_a_part(closed)).cloned().collect()
    }
}

const fn is_for_a_part(closed: &LaneClosure) -> bool {
    closed.from.is_some() || closed.until.is_some()
}

/// `1,2`, `3=18:45`, `3=18:45-19:15`, `3=-19:15`; words for the times will do as well: `3 from 18:45 until 19:15`.
fn closed(text: &str) -> Result<LaneClosure, String> {
    let text = visible_line(text);
    let in_words = [" from ", " until "].iter().filter_map(|word| text.find(word)).min();
    let with_words = || in_words.map(|at| text.split_at(at));
    let (written, hours) = text.split_once('=').or_else(with_words).unwrap_or((&text, ""));
    let Lanes(found) = lanes(written)?;
    let found = found.iter().map(|lane| lane.get()).collect();
    let hours = hours.trim();
    let hours = hours.strip_prefix("from ").unwrap_or(hours);
    let (from, until) = hours.split_once("until").or_else(|| hours.split_once('-')).unwrap_or((hours, ""));
    let time = |written: &str| -> Result<Option<NaiveTime>, String> {
        match written.trim() {
            "" => Ok(None),
            written => written.parse().map(|TimeOfDay(time)| Some(time)).map_err(|_: TimeOfDayError| {
                format!("`{written}` is no time of day; write for example 3=18:45 or 3=18:45-19:15")
            }),
        }
    };
    let (from, until) = (time(from)?, time(until)?);
    if from.is_none() && until.is_none() && written.len() < text.len() {
        return Err("write when as well, for example 3=18:45 or 3=18:45-19:15".to_owned());
    }
    Ok(LaneClosure { lanes: found, from, until })
}

fn lanes(text: &str) -> Result<Lanes, String> {
    workout_notation::lanes(text).map(Lanes).map_err(|problem| sentence(&problem))
}

/// A name and its value, on both sides of the last `=`; given what a value is, and one for example.
fn named<T>(
    text: &str,
    what: &str,
    example: (&str, &str),
    value: impl Fn(&str) -> Option<T>,
) -> Result<(String, T), String> {
    let text = visible_line(text);
    let (name, written) = text.rsplit_once('=').unwrap_or((&text, ""));
    let (name, written) = (name.trim(), written.trim());
    if name.is_empty() || written.is_empty() {
        return Err(format!("write for example {}={}", example.0, example.1));
    }
    let value = value(written).ok_or_else(|| {
        format!("`{written}` is no {what}; write for example {}", in_shell(&format!("{name}={}", example.1)))
    })?;
    Ok((name.to_owned(), value))
}

/// An argument as it is typed.
fn in_shell(argument: &str) -> String {
    if argument.contains(' ') { format!("\"{argument}\"") } else { argument.to_owned() }
}

fn late(text: &str) -> Result<(String, TimeOfDay), String> {
    named(text, "time of day", ("sprinters", "18:20"), |time| time.parse().ok())
}

fn reps(text: &str) -> Result<(String, u32), String> {
    named(text, "number of repetitions", ("Ben", "4"), |reps| reps.parse().ok().filter(|reps| *reps > 0))
}

fn wind(text: &str) -> Result<Wind, String> {
    let wind = Wind::from_text(&visible_line(text));
    match wind.from {
        Some(_) => Ok(wind),
        None => {
            Err("say from where on which straight, for example `3 m/s against on the home straight`"
                .to_owned())
        }
    }
}

fn hazard(text: &str) -> Result<(String, Since), String> {
    named(text, "time of day such as 18:30", ("javelin", "now"), |since| since.parse().ok())
}

fn sentence(problem: &workout_notation::Problem) -> String {
    match &problem.help {
        Some(help) => format!("{}; {help}", problem.message),
        None => problem.message.clone(),
    }
}

fn running_line(text: &str) -> Result<f64, String> {
    let metres: Result<f64, _> = text.parse();
    metres
        .ok()
        .filter(|metres| (0.0..=3.0).contains(metres))
        .ok_or_else(|| "write metres from 0 to 3, such as 0.5".to_owned())
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum Paper {
    /// A4, 210 mm by 297 mm
    #[default]
    A4,
    /// US Letter, 8.5 by 11 inches
    Letter,
}

impl From<Paper> for plan_sheet::Paper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self::A4,
            Paper::Letter => Self::Letter,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Extra {
    /// A card for each athlete to cut out, with rests and a box for each time
    Cards,
    /// The lanes unrolled at both ends of each run, with the paint there
    Lanes,
    /// Every caution in full, and how people behave on the track
    Care,
}

impl Extra {
    pub(crate) fn add_to(self, extras: &mut plan_sheet::Extras) {
        match self {
            Self::Cards => extras.cards = true,
            Self::Lanes => extras.lanes = true,
            Self::Care => extras.care = true,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Kind {
    /// What is run, and when
    Session,
    /// The ground, its paint, and the rules of the venue
    Track,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum Color {
    /// Where the terminal can and NO_COLOR is not set
    #[default]
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn flags_are_consistent_and_the_help_names_every_built_in_track_and_kind_of_file() {
        let mut command = super::Flags::command();
        command.build();
        command.clone().debug_assert();
        let help = command.find_subcommand_mut("plan").expect("it exists").render_help().to_string();
        let words: Vec<&str> =
            help.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | ']')).collect();
        let endings = plan_sheet::FORMATS.iter().map(|format| format!(".{}", format.ending));
        let names = lane_distance::Track::built_in_names().map(str::to_owned);
        for name in names.chain(endings) {
            assert!(words.contains(&name.as_str()), "{name} is missing from the help: {help}");
        }
    }
}
