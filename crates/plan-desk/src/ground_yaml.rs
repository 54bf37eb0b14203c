//! The form of a track out of its file, and into it.

use session_plan::{YamlKeys, YamlValue};

use crate::ground_form::{
    ClosedForm, GroundForm, HazardForm, LaneRuleForm, MarksForm, PieceForm, RulesForm, Shape, StraightForm,
    WornForm,
};

/// What the bends of an oval turn, in degrees.
const HALF_TURN: &str = "180";

/// A value as it is written in a field: the items of a list with commas.
fn written(value: &YamlValue) -> String {
    match value {
        YamlValue::Text(written) | YamlValue::Number(written) => written.clone(),
        YamlValue::List(items) => items.iter().map(written).collect::<Vec<_>>().join(", "),
        YamlValue::Nothing | YamlValue::Mapping(_) => String::new(),
    }
}

fn items<T>(value: &YamlValue, item: fn(&YamlValue) -> T) -> Vec<T> {
    value.items().iter().map(item).collect()
}

/// A word, or what stands for it where it is not given.
fn word(value: &YamlValue, usual: &str) -> String {
    let written = written(value);
    if written.is_empty() { usual.to_owned() } else { written }
}

impl GroundForm {
    /// The form of a track file.
    pub(crate) fn of_yaml(file: &YamlValue) -> Self {
        let text = |key: &str| written(file.at(key));
        let path = items(file.at("path"), PieceForm::of_yaml);
        let oval = oval(&path);
        let closed = file.at("closed_lanes");
        let (radius, straight) = oval.clone().unwrap_or_default();
        Self {
            name: text("name"),
            timezone: text("timezone"),
            bearing: text("bearing"),
            shape: if oval.is_some() { Shape::Oval } else { Shape::Pieces },
            radius,
            straight,
            path: if oval.is_some() { Vec::new() } else { path },
            inner_edge: word(file.at("inner_edge"), "kerb"),
            lanes: text("lanes"),
            lane_width: text("lane_width"),
            home_straight: StraightForm::of_yaml(file.at("home_straight")),
            back_straight: StraightForm::of_yaml(file.at("back_straight")),
            marks: MarksForm::of_yaml(file.at("marks")),
            closed_lanes: ClosedForm {
                lanes: written(if closed.keys().is_some() { closed.at("lanes") } else { closed }),
                reason: written(closed.at("reason")),
            },
            hazards: items(file.at("hazards"), HazardForm::of_yaml),
            house_rules: RulesForm::of_yaml(file.at("house_rules")),
        }
    }

    /// Puts what the form holds into a track file; every other key of the file stays.
    pub(crate) fn write(&self, file: &mut YamlKeys) {
        let straight = |straight: &StraightForm| {
            keys([("lanes", number(&straight.lanes)), ("chute", number(&straight.chute))])
        };
        let closed = &self.closed_lanes;
        let closed = match text(&closed.reason) {
            None => lanes(&closed.lanes),
            reason => keys([("lanes", lanes(&closed.lanes)), ("reason", reason)]),
        };
        file.set("name", text(&self.name));
        file.set("path", Some(YamlValue::List(self.pieces().iter().map(PieceForm::yaml).collect())));
        file.set("inner_edge", text(&self.inner_edge));
        file.set("lanes", number(&self.lanes));
        file.set("lane_width", list(&self.lane_width, ","));
        file.set("home_straight", straight(&self.home_straight));
        file.set("back_straight", straight(&self.back_straight));
        file.set("bearing", number(&self.bearing));
        file.set("timezone", text(&self.timezone));
        file.set("closed_lanes", closed);
        let mut marks = keys_at(file, "marks");
        self.marks.write(&mut marks);
        file.set("marks", Some(YamlValue::Mapping(marks)));
        let hazards: Vec<YamlValue> = self.hazards.iter().map(HazardForm::yaml).collect();
        file.set("hazards", (!hazards.is_empty()).then_some(YamlValue::List(hazards)));
        let mut rules = keys_at(file, "house_rules");
        self.house_rules.write(&mut rules);
        file.set("house_rules", (!rules.is_empty()).then_some(YamlValue::Mapping(rules)));
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
    fn of_yaml(piece: &YamlValue) -> Self {
        let [straight, radius, turn] = ["straight", "radius", "turn"].map(|key| written(piece.at(key)));
        Self { straight, radius, turn }
    }

    fn yaml(&self) -> YamlValue {
        let Self { straight, radius, turn } = self;
        let piece = [("straight", number(straight)), ("radius", number(radius)), ("turn", number(turn))];
        keys(piece).unwrap_or_else(|| YamlValue::Mapping(YamlKeys::default()))
    }
}

impl StraightForm {
    fn of_yaml(straight: &YamlValue) -> Self {
        Self { lanes: written(straight.at("lanes")), chute: written(straight.at("chute")) }
    }
}

impl MarksForm {
    fn of_yaml(marks: &YamlValue) -> Self {
        let sets = marks.at("sets");
        let usual = || vec!["standard".to_owned()];
        let worn =
            |worn: &YamlValue| WornForm { mark: written(worn.at("mark")), lanes: written(worn.at("lanes")) };
        Self {
            sets: if *sets == YamlValue::Nothing { usual() } else { items(sets, written) },
            worn: items(marks.at("worn"), worn),
        }
    }

    fn write(&self, marks: &mut YamlKeys) {
        let sets = self.sets.iter().filter_map(|set| text(set)).collect();
        marks.set("sets", Some(YamlValue::List(sets)));
        let worn = |worn: &WornForm| keys([("mark", text(&worn.mark)), ("lanes", lanes(&worn.lanes))]);
        let worn: Vec<YamlValue> = self
            .worn
            .iter()
            .map(|mark| worn(mark).unwrap_or_else(|| YamlValue::Mapping(YamlKeys::default())))
            .collect();
        marks.set("worn", (!worn.is_empty()).then_some(YamlValue::List(worn)));
    }
}

impl HazardForm {
    fn of_yaml(hazard: &YamlValue) -> Self {
        let text = |key: &str| written(hazard.at(key));
        Self {
            kind: text("kind"),
            on: word(hazard.at("on"), "oval"),
            from: text("from"),
            to: text("to"),
            side: text("side"),
            lanes: text("lanes"),
            hours: text("hours"),
            note: text("note"),
        }
    }

    fn yaml(&self) -> YamlValue {
        let hours: Vec<YamlValue> = self.hours.split(',').filter_map(text).collect();
        let hours = match hours.len() {
            0 => None,
            1 => hours.into_iter().next(),
            _ => Some(YamlValue::List(hours)),
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
        keys(hazard).unwrap_or_else(|| YamlValue::Mapping(YamlKeys::default()))
    }
}

impl RulesForm {
    fn of_yaml(rules: &YamlValue) -> Self {
        let notes = rules.at("notes").items().iter().map(written);
        Self {
            lanes: items(rules.at("lanes"), LaneRuleForm::of_yaml),
            direction: word(rules.at("direction"), "straights either way"),
            infield_crossing: word(rules.at("infield_crossing"), "allowed"),
            notes: notes.collect::<Vec<_>>().join("\n"),
        }
    }

    fn write(&self, rules: &mut YamlKeys) {
        let lanes: Vec<YamlValue> = self.lanes.iter().map(LaneRuleForm::yaml).collect();
        let notes: Vec<YamlValue> = self.notes.lines().filter_map(text).collect();
        rules.set("lanes", (!lanes.is_empty()).then_some(YamlValue::List(lanes)));
        rules.set("direction", text(&self.direction));
        rules.set("infield_crossing", text(&self.infield_crossing));
        rules.set("notes", (!notes.is_empty()).then_some(YamlValue::List(notes)));
    }
}

impl LaneRuleForm {
    fn of_yaml(rule: &YamlValue) -> Self {
        let text = |key: &str| written(rule.at(key));
        Self {
            of: word(rule.at("of"), "runs"),
            over: text("over"),
            from: text("from"),
            up_to: text("up_to"),
            lanes: text("lanes"),
            on: word(rule.at("on"), "track"),
        }
    }

    fn yaml(&self) -> YamlValue {
        let rule = [
            ("of", text(&self.of)),
            ("over", number(&self.over)),
            ("from", number(&self.from)),
            ("up_to", number(&self.up_to)),
            ("lanes", lanes(&self.lanes)),
            ("on", text(&self.on)),
        ];
        keys(rule).unwrap_or_else(|| YamlValue::Mapping(YamlKeys::default()))
    }
}

/// A text; nothing where it is blank.
fn text(written: &str) -> Option<YamlValue> {
    let text = written.trim();
    (!text.is_empty()).then(|| YamlValue::Text(text.to_owned()))
}

/// A number, or what is written instead of one; nothing where it is blank.
fn number(written: &str) -> Option<YamlValue> {
    let text = written.trim();
    let is_plain = text.chars().all(|sign| sign.is_ascii_digit() || ".-+".contains(sign));
    let is_number = is_plain && text.parse::<f64>().is_ok_and(f64::is_finite);
    if is_number { Some(YamlValue::Number(text.to_owned())) } else { self::text(text) }
}

/// One value, or a list of those that signs part.
fn list(written: &str, signs: &str) -> Option<YamlValue> {
    let mut values: Vec<YamlValue> = written.split(|sign| signs.contains(sign)).filter_map(number).collect();
    if values.len() > 1 { Some(YamlValue::List(values)) } else { values.pop() }
}

/// A list of lanes.
fn lanes(written: &str) -> Option<YamlValue> {
    let lanes: Vec<YamlValue> = written.split([',', ' ']).filter_map(number).collect();
    (!lanes.is_empty()).then_some(YamlValue::List(lanes))
}

/// The keys that have values; nothing where none has.
fn keys<const N: usize>(values: [(&str, Option<YamlValue>); N]) -> Option<YamlValue> {
    let mut keys = YamlKeys::default();
    for (key, value) in values {
        keys.set(key, value);
    }
    (!keys.is_empty()).then_some(YamlValue::Mapping(keys))
}

/// The keys under a key, which are none where it is something else.
fn keys_at(file: &YamlKeys, key: &str) -> YamlKeys {
    file.get(key).and_then(YamlValue::keys).cloned().unwrap_or_default()
}
