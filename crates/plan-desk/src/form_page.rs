//! The form of somebody's own track, as a part of the page.

use askama::Template;
use lane_distance::Track;
use lane_distance::spec::MarkSet;

use crate::ground_answer::FormProblem;
use crate::ground_form::{GroundForm, Shape};

#[derive(Template)]
#[template(path = "ground_form.html")]
struct Page {
    /// What is wrong with the whole.
    problems: Problems,
    /// Whether anything is wrong.
    is_wrong: bool,
    parts: Vec<Part>,
    /// The built-in tracks that a new one can be made of.
    tracks: Vec<&'static str>,
}

/// A part of the form.
struct Part {
    title: &'static str,
    hint: &'static str,
    /// What is wrong with what its fields are parts of.
    problems: Vec<Problems>,
    fields: Vec<Field>,
    lists: Vec<List>,
}

/// Things that can be added and removed.
struct List {
    path: &'static str,
    /// What one of them is called.
    noun: &'static str,
    problems: Problems,
    items: Vec<Item>,
}

/// One of them.
struct Item {
    path: String,
    number: usize,
    problems: Problems,
    fields: Vec<Field>,
}

/// A value that is written.
#[derive(Template)]
#[template(path = "ground_field.html")]
struct Field {
    path: String,
    label: &'static str,
    hint: &'static str,
    value: String,
    control: Control,
    problems: Problems,
}

/// How it is written.
enum Control {
    /// A line.
    Line,
    /// Several lines.
    Lines,
    /// A number with or without a unit, or a list of them.
    Number,
    /// One of these.
    Choice(Vec<String>),
    /// Any of these, each with whether it is.
    Ticks(Vec<(String, bool)>),
}

impl Control {
    const fn is_number(&self) -> bool {
        matches!(self, Self::Number)
    }
}

/// What is wrong with a part of the form, and where that is told.
#[derive(Template)]
#[template(path = "ground_problems.html")]
struct Problems {
    id: String,
    problems: Vec<FormProblem>,
}

/// What is wrong, by where it is.
struct Told<'a>(&'a [FormProblem]);

impl Told<'_> {
    /// What is wrong with just this.
    fn at(&self, path: &str) -> Problems {
        let problems = self.0.iter().filter(|problem| problem.field == path).cloned().collect();
        let id =
            if path.is_empty() { "ground-problems".to_owned() } else { format!("ground-{path}-problems") };
        Problems { id, problems }
    }

    fn field(&self, path: impl Into<String>, label: &'static str, value: &str, control: Control) -> Field {
        let path = path.into();
        let problems = self.at(&path);
        Field { path, label, hint: "", value: value.to_owned(), control, problems }
    }

    fn line(&self, path: impl Into<String>, label: &'static str, value: &str) -> Field {
        self.field(path, label, value, Control::Line)
    }

    fn number(&self, path: impl Into<String>, label: &'static str, value: &str) -> Field {
        self.field(path, label, value, Control::Number)
    }

    fn choice(&self, path: impl Into<String>, label: &'static str, value: &str, words: &[&str]) -> Field {
        let mut words: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
        // What a file says that nobody knows is shown, with its problem.
        if !words.iter().any(|word| word == value) {
            words.push(value.to_owned());
        }
        self.field(path, label, value, Control::Choice(words))
    }
}

impl Field {
    fn with_hint(self, hint: &'static str) -> Self {
        Self { hint, ..self }
    }

    const fn is_wrong(&self) -> bool {
        !self.problems.problems.is_empty()
    }

    fn id(&self) -> String {
        format!("ground-{}", self.path)
    }

    /// What describes it: its hint and its problems.
    fn described_by(&self) -> String {
        let hint = (!self.hint.is_empty()).then(|| format!("{}-hint ", self.id()));
        format!("{}{}", hint.unwrap_or_default(), self.problems.id)
    }
}

impl List {
    fn of<T>(
        told: &Told<'_>,
        path: &'static str,
        noun: &'static str,
        list: &[T],
        fields: impl Fn(&str, &T) -> Vec<Field>,
    ) -> Self {
        let item = |(place, item): (usize, &T)| {
            let path = format!("{path}.{place}");
            Item { number: place + 1, problems: told.at(&path), fields: fields(&path, item), path }
        };
        Self { path, noun, problems: told.at(path), items: list.iter().enumerate().map(item).collect() }
    }
}

/// The form with its problems, as HTML.
///
/// # Errors
///
/// What is wrong with the template.
pub(crate) fn form_page(form: &GroundForm, problems: &[FormProblem]) -> Result<String, String> {
    let told = Told(problems);
    let parts = vec![
        of_track(form, &told),
        of_shape(form, &told),
        of_lanes(form, &told),
        of_straights(form, &told),
        of_marks(form, &told),
        of_hazards(form, &told),
        of_rules(form, &told),
    ];
    let tracks = Track::built_in_names().collect();
    let page = Page { problems: told.at(""), is_wrong: !problems.is_empty(), parts, tracks };
    page.render().map_err(|error| error.to_string())
}

fn of_track(form: &GroundForm, told: &Told<'_>) -> Part {
    let fields = vec![
        told.line("name", "Name", &form.name),
        told.line("timezone", "Time zone", &form.timezone)
            .with_hint("For the calendar, such as Europe/London."),
        told.number("bearing", "Bearing of the home straight", &form.bearing)
            .with_hint("Degrees from north in which it is run, for the north arrow."),
    ];
    Part { title: "The track", hint: "", problems: Vec::new(), fields, lists: Vec::new() }
}

fn of_shape(form: &GroundForm, told: &Told<'_>) -> Part {
    let shape = match form.shape {
        Shape::Oval => "oval",
        Shape::Pieces => "pieces",
    };
    let mut fields = vec![
        told.choice("shape", "Given as", shape, &["oval", "pieces"]),
        told.choice(
            "inner_edge",
            "Inner edge of lane 1",
            &form.inner_edge,
            &["kerb", "line", "kerb on the bends"],
        ),
    ];
    let mut lists = Vec::new();
    match form.shape {
        Shape::Oval => {
            fields.push(
                told.number("radius", "Radius of the bends", &form.radius)
                    .with_hint("At the inner edge, in metres."),
            );
            fields.push(
                told.number("straight", "Length of the straights", &form.straight).with_hint("In metres."),
            );
        }
        Shape::Pieces => lists.push(List::of(told, "path", "Piece", &form.path, |path, piece| {
            vec![
                told.number(format!("{path}.straight"), "Straight", &piece.straight),
                told.number(format!("{path}.radius"), "Radius", &piece.radius),
                told.number(format!("{path}.turn"), "Turn in degrees", &piece.turn),
            ]
        })),
    }
    let hint = match form.shape {
        Shape::Oval => "",
        Shape::Pieces => "In running order from the finish line; each is a straight, or a radius and a turn.",
    };
    Part { title: "Shape", hint, problems: Vec::new(), fields, lists }
}

fn of_lanes(form: &GroundForm, told: &Told<'_>) -> Part {
    let fields = vec![
        told.number("lanes", "Lanes round the oval", &form.lanes),
        told.number("lane_width", "Width of a lane", &form.lane_width)
            .with_hint("In metres, the outer line included; with commas for each lane from the inside."),
        told.number("closed_lanes.lanes", "Closed lanes", &form.closed_lanes.lanes)
            .with_hint("Such as 1, 2."),
        told.line("closed_lanes.reason", "Why they are closed", &form.closed_lanes.reason),
    ];
    Part { title: "Lanes", hint: "", problems: vec![told.at("closed_lanes")], fields, lists: Vec::new() }
}

fn of_straights(form: &GroundForm, told: &Told<'_>) -> Part {
    let (home, back) = (&form.home_straight, &form.back_straight);
    let fields = vec![
        told.number("home_straight.lanes", "Lanes of the home straight", &home.lanes),
        told.number("home_straight.chute", "Chute of the home straight", &home.chute),
        told.number("back_straight.lanes", "Lanes of the back straight", &back.lanes),
        told.number("back_straight.chute", "Chute of the back straight", &back.chute),
    ];
    let hint = "Only where a straight has more lanes than the oval, or goes on behind it.";
    Part {
        title: "Straights",
        hint,
        problems: ["home_straight", "back_straight"].map(|path| told.at(path)).into(),
        fields,
        lists: Vec::new(),
    }
}

fn of_marks(form: &GroundForm, told: &Told<'_>) -> Part {
    let marks = &form.marks;
    let others = MarkSet::built_in_names().filter(|name| !marks.sets.iter().any(|set| set == name));
    let ticks = marks.sets.iter().map(|set| (set.clone(), true));
    let ticks = ticks.chain(others.map(|name| (name.to_owned(), false))).collect();
    let fields = vec![told.field("marks.sets", "Marks that are painted", "", Control::Ticks(ticks))];
    let worn = List::of(told, "marks.worn", "Worn mark", &marks.worn, |path, worn| {
        vec![
            told.line(format!("{path}.mark"), "Name", &worn.mark),
            told.number(format!("{path}.lanes"), "Lanes", &worn.lanes).with_hint("If not all."),
        ]
    });
    Part { title: "Paint", hint: "", problems: vec![told.at("marks")], fields, lists: vec![worn] }
}

fn of_hazards(form: &GroundForm, told: &Told<'_>) -> Part {
    const KINDS: [&str; 8] = [
        "javelin runway",
        "cage sector",
        "water jump",
        "steeplechase barrier",
        "long-jump pit",
        "kerb edge",
        "gate",
        "closed stretch",
    ];
    let hazards = List::of(told, "hazards", "Hazard", &form.hazards, |path, hazard| {
        vec![
            told.choice(format!("{path}.kind"), "What it is", &hazard.kind, &KINDS),
            told.choice(format!("{path}.on"), "On", &hazard.on, &["oval", "home straight", "back straight"]),
            told.choice(format!("{path}.side"), "Side", &hazard.side, &["inside", "outside", "across"]),
            told.number(format!("{path}.from"), "From", &hazard.from),
            told.number(format!("{path}.to"), "To", &hazard.to),
            told.number(format!("{path}.lanes"), "Lanes", &hazard.lanes).with_hint("If not all."),
            told.line(format!("{path}.hours"), "Hours", &hazard.hours)
                .with_hint("Such as 18:30-20:00, if not always."),
            told.line(format!("{path}.note"), "Note", &hazard.note),
        ]
    });
    let hint = "Where nobody may stand while it is in use. From and to are metres to the finish in lane 1.";
    Part { title: "Hazards", hint, problems: Vec::new(), fields: Vec::new(), lists: vec![hazards] }
}

fn of_rules(form: &GroundForm, told: &Told<'_>) -> Part {
    let rules = &form.house_rules;
    let fields = vec![
        told.choice(
            "house_rules.direction",
            "Running direction",
            &rules.direction,
            &["straights either way", "anticlockwise"],
        ),
        told.choice(
            "house_rules.infield_crossing",
            "Crossing the infield",
            &rules.infield_crossing,
            &["allowed", "forbidden"],
        ),
        told.field("house_rules.notes", "Other rules", &rules.notes, Control::Lines).with_hint("One a line."),
    ];
    let lanes = List::of(told, "house_rules.lanes", "Lane rule", &rules.lanes, |path, rule| {
        vec![
            told.choice(format!("{path}.of"), "For", &rule.of, &["runs", "hurdles", "recoveries"]),
            told.number(format!("{path}.over"), "Over", &rule.over),
            told.number(format!("{path}.from"), "From", &rule.from),
            told.number(format!("{path}.up_to"), "Up to", &rule.up_to),
            told.number(format!("{path}.lanes"), "Lanes", &rule.lanes),
            told.choice(format!("{path}.on"), "On", &rule.on, &["track", "straights"]),
        ]
    });
    let hint = "Which lanes are for which distances, in metres; the first rule that fits counts.";
    Part { title: "House rules", hint, problems: vec![told.at("house_rules")], fields, lists: vec![lanes] }
}
