//! Labels that never lie over each other.

use std::f64::consts::TAU;

use kurbo::{Line, PathSeg, Point, Rect, Shape, Vec2};

/// What has been put on a part of the page: labels, and the lines that lead to them.
#[derive(Clone, Debug)]
pub(super) struct Labels {
    /// Where labels may be.
    bounds: Rect,
    taken: Vec<Rect>,
    leaders: Vec<Line>,
    /// How far labels keep from each other.
    clear: f64,
    /// How far from a wish a label may be put: away from what it names, along it, and how bad that is; the best
    /// first.
    moves: Vec<Move>,
}

/// A place near to one that is wished for.
#[derive(Clone, Copy, Debug)]
struct Move {
    out: f64,
    along: f64,
    worse: f64,
}

/// A label at its place, with the line that leads from what it names to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Placed {
    pub(super) place: Rect,
    pub(super) leader: Line,
}

/// Where a label would like to be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wish {
    /// What it names.
    pub(super) anchor: Point,
    /// The way in which it should lie from there, of length 1.
    pub(super) way: Vec2,
    /// How far it should keep from the anchor at least.
    pub(super) from: f64,
    /// How much worse this way is than others, as a distance.
    pub(super) worse: f64,
}

impl Labels {
    /// A part of the page without labels. They are put near to where they would like to be, in steps up to a
    /// reach.
    pub(super) fn new(bounds: Rect, clear: f64, (step, reach): (f64, f64)) -> Self {
        let steps = (reach / step).round() as i32;
        let way = |out: i32| {
            (-steps..=steps).map(move |along| {
                let cost = f64::from(out) + 1.3 * f64::from(along.abs());
                Move { out: f64::from(out) * step, along: f64::from(along) * step, worse: cost * step }
            })
        };
        let mut moves: Vec<Move> = (0..=steps).flat_map(way).collect();
        moves.sort_by(|a, b| a.worse.total_cmp(&b.worse));
        Self { bounds, taken: Vec::new(), leaders: Vec::new(), clear, moves }
    }

    /// Keeps a part of the page free of labels.
    pub(super) fn keep_free(&mut self, place: Rect) {
        self.taken.push(place);
    }

    /// Keeps labels that are put from now on off a line.
    pub(super) fn keep_off(&mut self, line: Line) {
        self.leaders.push(line);
    }

    /// Takes a place for a label that can be nowhere else; returns whether it was free.
    pub(super) fn take(&mut self, place: Rect) -> bool {
        let is_free = self.bounds.union(place) == self.bounds
            && !self.taken.iter().any(|taken| overlap(*taken, place))
            && !self.leaders.iter().any(|leader| crosses(*leader, place));
        if is_free {
            self.taken.push(place);
        }
        is_free
    }

    /// Puts a label of a size as near as it can be to one of the places that it would like; nothing where
    /// there is no room. `blocked` says where no label may lie.
    pub(super) fn place(
        &mut self,
        size: (f64, f64),
        wishes: &[Wish],
        blocked: impl Fn(Rect) -> bool,
    ) -> Option<Placed> {
        let found = self.tries(wishes).find_map(|(wish, step)| {
            let placed = wish.label(size, step);
            (self.is_free(&placed) && !blocked(placed.place)).then_some(placed)
        })?;
        self.taken.push(found.place);
        self.leaders.push(found.leader);
        Some(found)
    }

    /// What can be tried for some wishes, the best first.
    fn tries<'b>(&'b self, wishes: &'b [Wish]) -> impl Iterator<Item = (Wish, Move)> + 'b {
        // Each wish has tried its best moves up to here.
        let mut tried = vec![0; wishes.len()];
        std::iter::from_fn(move || {
            let left = wishes.iter().zip(&mut tried).filter_map(|(wish, tried)| {
                let next = self.moves.get(*tried)?;
                Some((next.worse + wish.worse, *wish, *next, tried))
            });
            let (_, wish, next, tried) = left.min_by(|a, b| a.0.total_cmp(&b.0))?;
            *tried += 1;
            Some((wish, next))
        })
    }

    fn is_free(&self, label: &Placed) -> bool {
        let inflated = label.place.inflate(self.clear, self.clear);
        self.bounds.union(label.place) == self.bounds
            && !self.taken.iter().any(|taken| overlap(*taken, inflated))
            // What holds the anchor itself is what the line leads out of.
            && !self.taken.iter().any(|taken| !taken.contains(label.leader.p0) && crosses(label.leader, *taken))
            && !self.leaders.iter().any(|leader| {
                crosses(*leader, label.place) || meet(*leader, label.leader)
            })
    }
}

impl Wish {
    /// Wishes in all directions round what is named, the first to the right.
    pub(super) fn all_round(anchor: Point, count: u32, from: f64) -> Vec<Self> {
        let way = |turn: u32| Vec2::from_angle(f64::from(turn) * TAU / f64::from(count));
        (0..count).map(|turn| Self { anchor, way: way(turn), from, worse: 0.0 }).collect()
    }

    /// A label of a size, moved from where it would be best.
    fn label(self, (width, height): (f64, f64), step: Move) -> Placed {
        let deep = (self.way.x.abs() * width + self.way.y.abs() * height) / 2.0;
        let across = Vec2::new(-self.way.y, self.way.x);
        let centre = self.anchor + self.way * (self.from + deep + step.out) + across * step.along;
        let place = Rect::from_center_size(centre, (width, height));
        let nearest =
            Point::new(self.anchor.x.clamp(place.x0, place.x1), self.anchor.y.clamp(place.y0, place.y1));
        Placed { place, leader: Line::new(self.anchor, nearest) }
    }
}

fn overlap(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// Whether a line and a box have a place in common.
fn crosses(line: Line, place: Rect) -> bool {
    let mut sides = place.path_segments(0.0).filter_map(|side| match side {
        PathSeg::Line(side) => Some(side),
        _ => None,
    });
    place.contains(line.p0) || place.contains(line.p1) || sides.any(|side| meet(line, side))
}

/// Whether two lines cross between their ends.
fn meet(a: Line, b: Line) -> bool {
    let side = |line: Line, point: Point| (line.p1 - line.p0).cross(point - line.p0);
    side(a, b.p0) * side(a, b.p1) < 0.0 && side(b, a.p0) * side(b, a.p1) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_of_one_place_go_side_by_side_until_there_is_no_room() {
        let mut labels = Labels::new(Rect::new(0.0, 0.0, 30.0, 30.0), 1.0, (1.0, 20.0));
        let wish = Wish { anchor: Point::new(15.0, 15.0), way: Vec2::new(0.0, -1.0), from: 1.0, worse: 0.0 };
        let mut put = Vec::new();
        while let Some(placed) = labels.place((8.0, 4.0), &[wish], |_| false) {
            assert!(put.iter().all(|other: &Placed| !overlap(other.place, placed.place)));
            put.push(placed);
        }
        assert!(put.len() > 1, "{put:?}");
    }
}
