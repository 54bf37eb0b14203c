//! Marks resolved to places in each lane of each course.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::{ON_PAINT_M, PaintReading, Spot};
use crate::paint::base::bases;
use crate::paint::mark::{Form, Mark, MarkId, Rule};
use crate::track::layout::Layout;

/// A mark in one lane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Painted {
    /// Distance to the finish of the course, in metres.
    pub to_finish_m: f64,
    /// Which mark.
    pub mark: MarkId,
    /// How certain the mark is to be there, and how easy to recognise: lower is better.
    pub(crate) ease: Ease,
}

/// How certain a mark is to be there, then how easy it is to pick out from its neighbours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Ease {
    pub(crate) set: u8,
    pub(crate) form: u8,
}

/// Added to the form of a trap, which ranks it after every other mark.
const TRAP_FORM: u8 = 16;

/// The forms up to here reach across the lane.
const LAST_EASY_FORM: u8 = 2;

impl Ease {
    fn of(mark: &Mark, lane: LaneNumber) -> Self {
        let form = match mark.form {
            // A white line across the lane is what a start line looks like.
            Form::Line if mark.colour.contains("white") => 0,
            Form::Line => 1,
            Form::Edge | Form::ShortLine => LAST_EASY_FORM,
            Form::Tick => LAST_EASY_FORM + 1,
            Form::Curve => LAST_EASY_FORM + 2,
        };
        let trap = if mark.trap_in(lane).is_some() { TRAP_FORM } else { 0 };
        Self { set: mark.set, form: form + trap }
    }

    /// Whether the mark reaches across the lane, so that it is found in a hurry.
    pub(crate) const fn is_easy(self) -> bool {
        self.form <= LAST_EASY_FORM
    }

    pub(crate) const fn is_trap(self) -> bool {
        self.form >= TRAP_FORM
    }
}

/// The paint of one lane of one course, each list ordered by the distance to the finish.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct LanePaint {
    /// Everything that is painted there.
    pub(crate) all: Vec<Painted>,
    /// What a spot may stand on.
    pub(crate) ends: Vec<Painted>,
    /// What a run may start on where it does not end on the finish line: paint that reaches across
    /// the lane.
    pub(crate) starts: Vec<Painted>,
    /// What a run from one of those may finish on: the best mark of each place.
    pub(crate) meant: Vec<Painted>,
    /// What a spot off the paint may be measured from: the best mark of each place that is not a trap.
    pub(crate) anchors: Vec<Painted>,
}

/// The paint of a track, lane by lane.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Paint {
    courses: [Vec<LanePaint>; 3],
}

impl Paint {
    /// Places every mark in every lane of every course.
    pub(crate) fn resolve(layout: &Layout, marks: &[Mark]) -> Self {
        let mut courses =
            Course::ALL.map(|course| vec![LanePaint::default(); layout.lanes_of(course).into()]);
        let bases = bases(marks);
        for (index, mark) in (0..).zip(marks) {
            let (placed, past_m) = placed_from(marks, &bases, index as usize);
            for lane in layout.lanes().iter().map(|lane| lane.number) {
                if !mark.is_in_lane(lane) {
                    continue;
                }
                let Some(place) = place(layout, placed, past_m, lane) else {
                    continue;
                };
                let ease = Ease::of(mark, lane);
                for course in Course::ALL {
                    if let Some(spot) = layout.on_course(place, course) {
                        courses[course as usize][lane.index()].all.push(Painted {
                            to_finish_m: spot.to_finish_m,
                            mark: MarkId(index),
                            ease,
                        });
                    }
                }
            }
        }
        for paint in courses.iter_mut().flatten() {
            paint.all.sort_by(|a, b| a.to_finish_m.total_cmp(&b.to_finish_m));
            let is_curve = |painted: &Painted| marks[painted.mark.index()].form == Form::Curve;
            let ends = paint.all.iter().filter(|p| !(p.ease.is_trap() && is_curve(p)));
            paint.ends = ends.copied().collect();
            let anchors = paint.all.iter().filter(|p| !p.ease.is_trap());
            paint.anchors = best_of_each_place(anchors.copied().collect());
            paint.starts = paint.ends.iter().filter(|p| p.ease.is_easy()).copied().collect();
            paint.starts = best_of_each_place(std::mem::take(&mut paint.starts));
            paint.meant = best_of_each_place(paint.ends.clone());
        }
        Self { courses }
    }

    /// The paint of a lane; empty where the course has no such lane.
    pub(crate) fn lane(&self, course: Course, lane: LaneNumber) -> &LanePaint {
        static NONE: LanePaint = LanePaint {
            all: Vec::new(),
            ends: Vec::new(),
            starts: Vec::new(),
            meant: Vec::new(),
            anchors: Vec::new(),
        };
        self.courses[course as usize].get(lane.index()).unwrap_or(&NONE)
    }

    /// Reads a spot by the paint of its lane: by a mark that it stands on, else by the nearest that
    /// is not a trap.
    pub(crate) fn read(&self, layout: &Layout, spot: Spot) -> PaintReading {
        let lane = self.lane(spot.course, spot.lane);
        let on_it = on_paint(&lane.ends, spot, layout).min_by_key(|painted| {
            // Of marks a hair apart, the one that is easier to find.
            let Ease { set, form } = painted.ease;
            let off_mm = (painted.past_m(layout, spot).abs() * 1000.0).round() as u32;
            (painted.ease.is_trap(), off_mm, form, set)
        });
        let beside = || nearest(neighbours(&lane.anchors, spot).into_iter().flatten(), layout, spot);
        reading(on_it.or_else(beside), layout, spot)
    }

    /// Reads a spot by any mark that it stands on, trap or not, else as [`Paint::read`] does.
    pub(crate) fn read_any(&self, layout: &Layout, spot: Spot) -> PaintReading {
        let all = &self.lane(spot.course, spot.lane).all;
        match nearest(on_paint(all, spot, layout), layout, spot) {
            None => self.read(layout, spot),
            on_it => reading(on_it, layout, spot),
        }
    }
}

impl Painted {
    /// The mark as a spot of the lane and course of another spot.
    const fn beside(&self, spot: Spot) -> Spot {
        Spot { to_finish_m: self.to_finish_m, ..spot }
    }

    fn past_m(&self, layout: &Layout, spot: Spot) -> f64 {
        layout.past_m(self.beside(spot), spot)
    }
}

fn nearest<'a>(marks: impl Iterator<Item = &'a Painted>, layout: &Layout, spot: Spot) -> Option<&'a Painted> {
    let off_m = |painted: &Painted| painted.past_m(layout, spot).abs();
    marks.min_by(|a, b| off_m(a).total_cmp(&off_m(b)))
}

/// A spot as measured from a mark of its lane.
fn reading(from: Option<&Painted>, layout: &Layout, spot: Spot) -> PaintReading {
    from.map_or(PaintReading { mark: None, past_m: 0.0, tape_m: 0.0 }, |painted| PaintReading {
        mark: Some(painted.mark),
        past_m: painted.past_m(layout, spot),
        tape_m: layout.tape_m(painted.beside(spot), spot),
    })
}

/// The marks on whose paint a spot stands; the lap goes round.
fn on_paint<'a>(marks: &'a [Painted], spot: Spot, layout: &Layout) -> impl Iterator<Item = &'a Painted> {
    let near = move |at_m: f64| {
        let first = marks.partition_point(|painted| painted.to_finish_m < at_m - ON_PAINT_M);
        marks[first..].iter().take_while(move |painted| painted.to_finish_m <= at_m + ON_PAINT_M)
    };
    let at_m = spot.to_finish_m;
    let round_m = match spot.course {
        Course::Oval => {
            let lap_m = layout.measure(spot.lane).lap_m();
            if at_m <= ON_PAINT_M {
                Some(at_m + lap_m)
            } else {
                (lap_m - at_m <= ON_PAINT_M).then_some(at_m - lap_m)
            }
        }
        _ => None,
    };
    near(at_m).chain(round_m.into_iter().flat_map(near))
}

/// The marks next to a spot, on both sides; the lap goes round.
fn neighbours(marks: &[Painted], spot: Spot) -> [Option<&Painted>; 2] {
    let after = marks.partition_point(|painted| painted.to_finish_m < spot.to_finish_m);
    match spot.course {
        Course::Oval => {
            let before = if after == 0 { marks.last() } else { marks.get(after - 1) };
            [before, marks.get(after).or(marks.first())]
        }
        _ => [after.checked_sub(1).and_then(|before| marks.get(before)), marks.get(after)],
    }
}

/// Of marks that share one place exactly, the one most certain to be there and easiest to find.
fn best_of_each_place(mut marks: Vec<Painted>) -> Vec<Painted> {
    marks.dedup_by(|next, kept| {
        let is_same = (next.to_finish_m - kept.to_finish_m).abs() < SAME_PLACE_M;
        if is_same && next.ease < kept.ease {
            *kept = *next;
        }
        is_same
    });
    marks
}

/// Marks closer than this share one place, in metres.
const SAME_PLACE_M: f64 = 1e-6;

/// The mark that a mark is placed from in the end, which is itself where it is placed from no other,
/// and how far past that it lies, in metres.
fn placed_from<'a>(marks: &'a [Mark], bases: &[Option<usize>], mut index: usize) -> (&'a Mark, f64) {
    let mut past_m = 0.0;
    // A track whose marks lean on each other in a circle is refused before.
    for _ in marks {
        let (Rule::From(_, more_m), Some(base)) = (&marks[index].rule, bases[index]) else { break };
        past_m += more_m;
        index = base;
    }
    (&marks[index], past_m)
}

/// Where a mark lies in a lane if it is placed `past_m` past where the rule of another puts it, on the
/// course of that rule.
fn place(layout: &Layout, from: &Mark, past_m: f64, lane: LaneNumber) -> Option<Spot> {
    let line = layout.measure(lane);
    let on_oval = |to_finish_m: f64| Some(Spot::on_oval(lane, line.within_lap_m(to_finish_m)));
    let spot = match from.rule {
        Rule::BeforeFinish(course, to_finish_m) => {
            let ground = layout.straight(course)?;
            let holds = lane.get() <= ground.lanes && to_finish_m <= ground.length_m() + 1e-9;
            holds.then_some(Spot { course, lane, to_finish_m })
        }
        Rule::From(..) => None,
        _ if !layout.has_lane(Course::Oval, lane) => None,
        Rule::ToFinish(to_finish_m) => on_oval(to_finish_m),
        Rule::Across(to_finish_m) => {
            let inside =
                Spot::on_oval(LaneNumber::FIRST, layout.measure(LaneNumber::FIRST).within_lap_m(to_finish_m));
            Some(layout.abreast(inside, lane))
        }
        Rule::EndOfFirstBend => Some(layout.end_of_first_bend(lane)),
        Rule::Curve(to_finish_m) => layout.curved_start(LaneNumber::FIRST, to_finish_m, lane),
        Rule::AfterBreak { race_m, bends } => {
            layout.start_before_break(lane, race_m, bends, LaneNumber::FIRST)
        }
    }?;
    match spot.course {
        _ if past_m == 0.0 => Some(spot),
        Course::Oval => on_oval(spot.to_finish_m - past_m),
        _ => Some(Spot { to_finish_m: spot.to_finish_m - past_m, ..spot }),
    }
}
