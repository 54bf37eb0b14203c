//! The form of a track out of its file, and into it.

use serde_yaml::{Mapping, Number, Value};

use crate::ground_form::{
    ClosedForm, GroundForm, HazardForm, LaneRuleForm, MarksForm, PieceForm, RulesForm, Shape, StraightForm,
    WornForm,
};

/// What the bends of an oval turn, in degrees.
const HALF_TURN: &str = "180";

/// A key of a mapping; nothing where it is not one, or lacks the key.
fn at<'a>(value: &'a Value, key: &str) -> &'a Value {
    value.get(key).unwrap_or(&Value::Null)
}

/// A value as it is written in a field: the items of a list with commas.
fn written(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.to_string(),
        Value::Bool(is_so) => is_so.to_string(),
        Value::Sequence(items) => items.iter().map(written).collect::<Vec<_>>().join(", "),
        Value::Null | Value::Mapping(_) | Value::Tagged(_) => String::new(),
    }
}

fn items<T>(value: &Value, item: fn(&Value) -> T) -> Vec<T> {
    value.as_sequence().into_iter().flatten().map(item).collect()
}

/// A word, or what stands for it where it is not given.
fn word(value: &Value, usual: &str) -> String {
    let written = written(value);
    if written.is_empty() { usual.to_owned() } else { written }
}

impl GroundForm {
    /// The form of a track file.
    pub(crate) fn of_yaml(file: &Value) -> Self {
        let text = |key: &str| written(at(file, key));
        let path = items(at(file, "path"), PieceForm::of_yaml);
        let oval = oval(&path);
        let closed = at(file, "closed_lanes");
        let (radius, straight) = oval.clone().unwrap_or_default();
        Self {
            name: text("name"),
            timezone: text("timezone"),
            bearing: text("bearing"),
            shape: if oval.is_some() { Shape::Oval } else { Shape::Pieces },
            radius,
            straight,
            path: if oval.is_some() { Vec::new() } else { path },
            inner_edge: word(at(file, "inner_edge"), "kerb"),
            lanes: text("lanes"),
            lane_width: text("lane_width"),
            home_straight: StraightForm::of_yaml(at(file, "home_straight")),
            back_straight: StraightForm::of_yaml(at(file, "back_straight")),
            marks: MarksForm::of_yaml(at(file, "marks")),
            closed_lanes: ClosedForm {
                lanes: written(if closed.is_mapping() { at(closed, "lanes") } else { closed }),
                reason: written(at(closed, "reason")),
            },
            hazards: items(at(file, "hazards"), HazardForm::of_yaml),
            house_rules: RulesForm::of_yaml(at(file, "house_rules")),
        }
    }

    /// Puts what the form holds into a track file; every other key of the file stays.
    pub(crate) fn write(&self, file: &mut Mapping) {
        let straight = |straight: &StraightForm| {
            keys([("lanes", number(&straight.lanes)), ("chute", number(&straight.chute))])
        };
        let closed = &self.closed_lanes;
        let closed = match text(&closed.reason) {
            None => lanes(&closed.lanes),
            reason => keys([("lanes", lanes(&closed.lanes)), ("reason", reason)]),
        };
        set(file, "name", text(&self.name));
        set(file, "path", Some(Value::Sequence(self.pieces().iter().map(PieceForm::yaml).collect())));
        set(file, "inner_edge", text(&self.inner_edge));
        set(file, "lanes", number(&self.lanes));
        set(file, "lane_width", list(&self.lane_width, ","));
        set(file, "home_straight", straight(&self.home_straight));
        set(file, "back_straight", straight(&self.back_straight));
        set(file, "bearing", number(&self.bearing));
        set(file, "timezone", text(&self.timezone));
        set(file, "closed_lanes", closed);
        let mut marks = keys_at(file, "marks");
        self.marks.write(&mut marks);
        set(file, "marks", Some(Value::Mapping(marks)));
        let hazards: Vec<Value> = self.hazards.iter().map(HazardForm::yaml).collect();
        set(file, "hazards", (!hazards.is_empty()).then_some(Value::Sequence(hazards)));
        let mut rules = keys_at(file, "house_rules");
        self.house_rules.write(&mut rules);
        set(file, "house_rules", (!rules.is_empty()).then_some(Value::Mapping(rules)));
    }

    /// The pieces of the inner edge.
    fn pieces(&self) -> Vec<PieceForm> {
        match self.shape {
            Shape::Pieces => self.path.clone(),
            Shape::Oval => {
                let (radius, turn) = (self.radius.clone(), HALF_TURN.to_owned());
                let bend = PieceForm { radius, turn, ..PieceForm::default() };
                let straight = PieceForm { straight: self.straight.clone(), ..PieceForm::default() };
                vec![bend.clone(), straight.clone(), bend, straight]
            }
        }
    }
}

/// The radius and the straight of a plain oval.
fn oval(path: &[PieceForm]) -> Option<(String, String)> {
    let [bend, straight, other_bend, other_straight] = path else { return None };
    let is_bend = bend.turn == HALF_TURN && bend.straight.is_empty() && !bend.radius.is_empty();
    let is_straight = straight.turn.is_empty() && straight.radius.is_empty() && !straight.straight.is_empty();
    let is_oval = is_bend && is_straight && bend == other_bend && straight == other_straight;
    is_oval.then(|| (bend.radius.clone(), straight.straight.clone()))
}

impl PieceForm {
    fn of_yaml(piece: &Value) -> Self {
        let [straight, radius, turn] = ["straight", "radius", "turn"].map(|key| written(at(piece, key)));
        Self { straight, radius, turn }
    }

    fn yaml(&self) -> Value {
        let Self { straight, radius, turn } = self;
        let piece = [("straight", number(straight)), ("radius", number(radius)), ("turn", number(turn))];
        keys(piece).unwrap_or_else(|| Value::Mapping(Mapping::new()))
    }
}

impl StraightForm {
    fn of_yaml(straight: &Value) -> Self {
        Self { lanes: written(at(straight, "lanes")), chute: written(at(straight, "chute")) }
    }
}

impl MarksForm {
    fn of_yaml(marks: &Value) -> Self {
        let sets = at(marks, "sets");
        let usual = || vec!["standard".to_owned()];
        let worn =
            |worn: &Value| WornForm { mark: written(at(worn, "mark")), lanes: written(at(worn, "lanes")) };
        Self {
            sets: if sets.is_null() { usual() } else { items(sets, written) },
            worn: items(at(marks, "worn"), worn),
        }
    }

    fn write(&self, marks: &mut Mapping) {
        let sets = self.sets.iter().filter_map(|set| text(set)).collect();
        set(marks, "sets", Some(Value::Sequence(sets)));
        let worn = |worn: &WornForm| keys([("mark", text(&worn.mark)), ("lanes", lanes(&worn.lanes))]);
        let worn: Vec<Value> = self
            .worn
            .iter()
            .map(|mark| worn(mark).unwrap_or_else(|| Value::Mapping(Mapping::new())))
            .collect();
        set(marks, "worn", (!worn.is_empty()).then_some(Value::Sequence(worn)));
    }
}

impl HazardForm {
    fn of_yaml(hazard: &Value) -> Self {
        let text = |key: &str| written(at(hazard, key));
        Self {
            kind: text("kind"),
            on: word(at(hazard, "on"), "oval"),
            from: text("from"),
            to: text("to"),
            side: text("side"),
            lanes: text("lanes"),
            hours: text("hours"),
            note: text("note"),
        }
    }

    fn yaml(&self) -> Value {
        let hours: Vec<Value> = self.hours.split(',').filter_map(text).collect();
        let hours = match hours.len() {
            0 => None,
            1 => hours.into_iter().next(),
            _ => Some(Value::Sequence(hours)),
        };
        let hazard = [
            ("kind", text(&self.kind)),
            ("on", text(&self.on)),
            ("from", number(&self.from)),
            ("to", number(&self.to)),
            ("side", text(&self.side)),
            ("lanes", lanes(&self.lanes)),
            ("hours", hours),
            ("note", text(&self.note)),
        ];
        keys(hazard).unwrap_or_else(|| Value::Mapping(Mapping::new()))
    }
}

impl RulesForm {
    fn of_yaml(rules: &Value) -> Self {
        let notes = at(rules, "notes").as_sequence().into_iter().flatten().map(written);
        Self {
            lanes: items(at(rules, "lanes"), LaneRuleForm::of_yaml),
            direction: word(at(rules, "direction"), "straights either way"),
            infield_crossing: word(at(rules, "infield_crossing"), "allowed"),
            notes: notes.collect::<Vec<_>>().join("\n"),
        }
    }

    fn write(&self, rules: &mut Mapping) {
        let lanes: Vec<Value> = self.lanes.iter().map(LaneRuleForm::yaml).collect();
        let notes: Vec<Value> = self.notes.lines().filter_map(text).collect();
        set(rules, "lanes", (!lanes.is_empty()).then_some(Value::Sequence(lanes)));
        set(rules, "direction", text(&self.direction));
        set(rules, "infield_crossing", text(&self.infield_crossing));
        set(rules, "notes", (!notes.is_empty()).then_some(Value::Sequence(notes)));
    }
}

impl LaneRuleForm {
    fn of_yaml(rule: &Value) -> Self {
        let text = |key: &str| written(at(rule, key));
        Self {
            of: word(at(rule, "of"), "runs"),
            over: text("over"),
            from: text("from"),
            up_to: text("up_to"),
            lanes: text("lanes"),
            on: word(at(rule, "on"), "track"),
        }
    }

    fn yaml(&self) -> Value {
        let rule = [
            ("of", text(&self.of)),
            ("over", number(&self.over)),
            ("from", number(&self.from)),
            ("up_to", number(&self.up_to)),
            ("lanes", lanes(&self.lanes)),
            ("on", text(&self.on)),
        ];
        keys(rule).unwrap_or_else(|| Value::Mapping(Mapping::new()))
    }
}

/// A text; nothing where it is blank.
fn text(written: &str) -> Option<Value> {
    let text = written.trim();
    (!text.is_empty()).then(|| Value::String(text.to_owned()))
}

/// A number, or what is written instead of one; nothing where it is blank.
fn number(written: &str) -> Option<Value> {
    let text = written.trim();
    let whole = || text.parse::<i64>().ok().map(Number::from);
    let number = || text.parse::<f64>().ok().filter(|number| number.is_finite()).map(Number::from);
    let is_plain = text.chars().all(|sign| sign.is_ascii_digit() || ".-+".contains(sign));
    match whole().or_else(number).filter(|_| is_plain) {
        Some(number) => Some(Value::Number(number)),
        None => self::text(text),
    }
}

/// One value, or a list of those that signs part.
fn list(written: &str, signs: &str) -> Option<Value> {
    let mut values: Vec<Value> = written.split(|sign| signs.contains(sign)).filter_map(number).collect();
    if values.len() > 1 { Some(Value::Sequence(values)) } else { values.pop() }
}

/// A list of lanes.
fn lanes(written: &str) -> Option<Value> {
    let lanes: Vec<Value> = written.split([',', ' ']).filter_map(number).collect();
    (!lanes.is_empty()).then_some(Value::Sequence(lanes))
}

/// The keys that have values; nothing where none has.
fn keys<const N: usize>(values: [(&str, Option<Value>); N]) -> Option<Value> {
    let mut mapping = Mapping::new();
    for (key, value) in values {
        set(&mut mapping, key, value);
    }
    (!mapping.is_empty()).then_some(Value::Mapping(mapping))
}

/// Gives a key its value, at its place where it has one already.
fn set(mapping: &mut Mapping, key: &str, value: Option<Value>) {
    match value {
        Some(value) => {
            mapping.insert(Value::String(key.to_owned()), value);
        }
        None => {
            mapping.shift_remove(key);
        }
    }
}

/// The keys under a key, which are none where it is something else.
fn keys_at(file: &Mapping, key: &str) -> Mapping {
    file.get(key).and_then(Value::as_mapping).cloned().unwrap_or_default()
}
