//! Places that lie close to each other, magnified.

use kurbo::{Point, Rect, Size, Vec2};
use svg::node::Node;
use svg::node::element::Element;

use super::cluster::Cluster;
use super::cones;
use super::frame::{Frame, around};
use super::ground::Ground;
use super::labels::{Labels, Placed, Wish};
use super::paint::{self, UsedPaint};
use super::patterns::Patterns;
use crate::drawing::flag;
use crate::drawing::ink::{Pen, group, line, rect, text, text_in};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::sign::{Marked, sign};

/// A part of the ground, magnified, with a number at each cone.
#[derive(Clone, Debug)]
pub(super) struct Inset<'a> {
    cluster: Cluster<'a>,
    /// Units of the page to a metre.
    scale: f64,
    /// The middle of what it shows.
    middle: lane_distance::Point,
    /// Its lines, and whether each is bold.
    title: Vec<(String, bool)>,
    labels: Vec<(String, Placed)>,
    /// The names of lanes, each in its lane.
    lanes: Vec<(String, Rect)>,
    /// Its breadth and height with its title.
    pub(super) size: Size,
    /// The same of its picture alone.
    picture: Size,
    title_height: f64,
}

/// Millimetres to a metre, at most, the first that lets all insets stand on the infield: with the larger a
/// lane is as high as a line of small type.
pub(super) const LARGEST: [f64; 2] = [3.3, 2.6];

/// How broad and how high an inset's picture may be, in millimetres.
const MOST_MM: (f64, f64) = (62.0, 44.0);

/// How large insets are drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct InsetScale {
    /// Millimetres to a metre, at most.
    pub(super) largest: f64,
    /// The breadth of the page, in its units.
    pub(super) broadest: f64,
    /// Units of the page to a millimetre.
    pub(super) mm: f64,
}

impl<'a> Inset<'a> {
    /// The inset of a cluster. Where numbers find no room it is made larger; nothing where even then
    /// they find none.
    pub(super) fn of(cluster: &Cluster<'a>, ground: Ground<'_>, scale: InsetScale) -> Option<Self> {
        [1.0, 1.3, 1.7, 2.2, 2.7].into_iter().find_map(|larger| Self::fitting(cluster, ground, scale, larger))
    }

    /// The insets of a cluster, as many as its numbers need.
    pub(super) fn parts(cluster: &Cluster<'a>, ground: Ground<'_>, scale: InsetScale) -> Vec<Self> {
        if let Some(whole) = Self::of(cluster, ground, scale) {
            return vec![whole];
        }
        // A number beside a cone that stands alone always finds room.
        let halves =
            cluster.cones.chunks(cluster.cones.len().div_ceil(2)).filter(|_| cluster.cones.len() > 1);
        halves.flat_map(|half| Self::parts(&Cluster { cones: half.to_vec() }, ground, scale)).collect()
    }

    fn fitting(
        cluster: &Cluster<'a>,
        ground: Ground<'_>,
        InsetScale { largest, broadest, mm }: InsetScale,
        larger: f64,
    ) -> Option<Self> {
        // The whole breadth of each cone's lane, a little beyond.
        let reach = cluster.cones.iter().flat_map(|cone| {
            let (inner, outer) = ground.across(Frame::METRES, cone.spot.spot());
            [inner, outer]
        });
        let shown = around(reach).inflate(1.5, 1.5);
        let most = Size::new((MOST_MM.0 * mm * larger).min(broadest), MOST_MM.1 * mm * larger);
        let room = Vec2::new(9.0, 7.0) * mm;
        let scale = (largest * mm * larger.min(1.3))
            .min((most.width - room.x) / shown.width())
            .min((most.height - room.y) / shown.height());
        let size = Size::new(
            (shown.width() * scale + room.x).max(21.0 * mm),
            (shown.height() * scale + room.y).max(16.0 * mm),
        );
        let middle = lane_distance::Point::new(shown.center().x, -shown.center().y);
        let frame = Frame::with(scale, middle, Rect::from_origin_size(Point::ORIGIN, size).center());
        let letters = Type::bold(3.0 * mm);
        let within = Rect::from_origin_size(Point::ORIGIN, size).inset(-0.6 * mm);
        let mut labels = Labels::new(within, 0.25 * mm, (0.8 * mm, 16.0 * mm));
        for cone in &cluster.cones {
            let dot = 1.4 * mm;
            labels.keep_free(Rect::from_center_size(cones::at(cone, frame), (2.0 * dot, 2.0 * dot)));
        }
        let mut placed = Vec::new();
        for cone in &cluster.cones {
            let number = cone.order.to_string();
            let box_size = flag::size(&number, letters, mm);
            let anchor = cones::at(cone, frame);
            let wishes: Vec<Wish> = (0..16)
                .map(|turn| {
                    let way = Vec2::from_angle(f64::from(turn) * std::f64::consts::TAU / 16.0);
                    // Beside the cone first, where the lane itself leads.
                    Wish { anchor, way, from: 1.9 * mm, worse: if turn % 8 == 0 { 0.0 } else { 1.5 * mm } }
                })
                .collect();
            let label = labels.place(box_size, &wishes, |_| false)?;
            placed.push((number, label));
        }
        let letters = Type::plain(SMALL_MM * mm);
        let lanes = lane_names(cluster, ground, frame, &mut labels, letters);
        // A title may be broader than its picture.
        let title_width = Type { bold: true, ..letters }.width(&headline(cluster)).min(most.width);
        let title = wrapped_title(cluster, letters, size.width.max(title_width));
        let title_height = letters.leading() * title.len() as f64 + 0.8 * mm;
        let picture = size;
        let size = Size::new(size.width.max(title_width), size.height + title_height);
        Some(Self {
            cluster: cluster.clone(),
            scale,
            middle,
            title,
            labels: placed,
            lanes,
            picture,
            size,
            title_height,
        })
    }

    /// The numbers of the cones that it shows.
    pub(super) fn cones(&self) -> impl Iterator<Item = u32> {
        self.cluster.cones.iter().map(|cone| cone.order)
    }

    /// Draws it with its upper left corner at a place.
    pub(super) fn draw(
        &self,
        at: Point,
        ground: Ground<'_>,
        paint: &[UsedPaint<'_>],
        patterns: &mut Patterns,
        mm: f64,
    ) -> Element {
        let mut all = group("inset");
        let picture = Rect::from_origin_size(Point::new(at.x, at.y + self.title_height), self.picture);
        let letters = Type::plain(SMALL_MM * mm);
        for (index, (words, bold)) in self.title.iter().enumerate() {
            let baseline = at.y + letters.drop() + index as f64 * letters.leading();
            all.append(text(words, Point::new(at.x, baseline), Type { bold: *bold, ..letters }));
        }
        let frame = Frame::with(self.scale, self.middle, picture.center());
        let clip = patterns.clip(picture);
        let mut inside = group("magnified");
        inside.assign("clip-path", format!("url(#{clip})"));
        inside.append(rect(picture, "#ffffff", Pen::new("none", 0.0)));
        inside.append(ground.draw(frame, picture, mm));
        inside.append(super::hazards::draw(ground, frame, patterns.dots(), mm));
        inside.append(paint::finish_line(ground, frame, mm));
        let shown: Vec<UsedPaint<'_>> = paint
            .iter()
            .filter(|used| self.cluster.cones.iter().any(|cone| cone.order == used.cone))
            .cloned()
            .collect();
        inside.append(paint::draw(&shown, ground, frame, 1.6 * mm));
        all.append(inside);
        let moved = picture.origin().to_vec2();
        for (name, place) in &self.lanes {
            all.append(text_in(name, *place + moved, letters));
        }
        for (_, label) in &self.labels {
            all.append(line(label.leader.p0 + moved, label.leader.p1 + moved, Pen::new("#000000", 0.2 * mm)));
        }
        for cone in &self.cluster.cones {
            let mut sign = sign(Marked::of(cone), cones::at(cone, frame), 1.05 * mm);
            sign.assign("data-inset-cone", cone.order);
            all.append(sign);
        }
        for (number, label) in &self.labels {
            all.append(flag::flag(number, label.place + moved, Type::bold(3.0 * mm), mm));
        }
        all.append(rect(picture, "none", Pen::new("#000000", 0.35 * mm)));
        all
    }
}

/// The name of each cone's lane, where it finds room within the lane.
fn lane_names(
    cluster: &Cluster<'_>,
    ground: Ground<'_>,
    frame: Frame,
    labels: &mut Labels,
    letters: Type,
) -> Vec<(String, Rect)> {
    let layout = ground.layout();
    let mut names: Vec<(String, Rect)> = Vec::new();
    for cone in &cluster.cones {
        let name = format!("lane {}", cone.spot.lane);
        let lane = layout.lane(cone.spot.lane);
        let is_too_narrow = frame.length(lane.width_m) < letters.size * 1.2;
        if is_too_narrow || names.iter().any(|(known, _)| *known == name) {
            continue;
        }
        let spot = cone.spot.spot();
        let middle_m = lane.inner_line_m + lane.width_m / 2.0 - lane.measure_m;

        // Along the lane, from the cone outwards: behind it and past it in turn.
        let place = (4..80).find_map(|step| {
            let along_m = f64::from(step / 2) * 0.5 * if step % 2 == 0 { 1.0 } else { -1.0 };
            let to_finish_m = spot.to_finish_m + along_m;
            let there = match layout.straight(spot.course) {
                None => lane_distance::Spot {
                    to_finish_m: layout.measure(spot.lane).within_lap_m(to_finish_m),
                    ..spot
                },
                Some(straight) if (0.0..=straight.length_m()).contains(&to_finish_m) => {
                    lane_distance::Spot { to_finish_m, ..spot }
                }
                Some(_) => return None,
            };
            let centre = frame.at(layout.pose(there).outwards(middle_m));
            let place = letters.centred(&name, centre);
            labels.take(place).then_some(place)
        });
        names.extend(place.map(|place| (name, place)));
    }
    names
}

fn headline(cluster: &Cluster<'_>) -> String {
    format!("{}: {}", cluster.numbers(), cluster.lanes())
}

/// The numbers and the lanes, then the paint near the places.
fn wrapped_title(cluster: &Cluster<'_>, letters: Type, width: f64) -> Vec<(String, bool)> {
    let numbers = headline(cluster);
    let bold = Type { bold: true, ..letters };
    let mut lines: Vec<(String, bool)> =
        bold.wrapped(&numbers, width).into_iter().map(|line| (line, true)).collect();
    let mut marks: Vec<String> = Vec::new();
    for cone in &cluster.cones {
        let name = match &cone.spot.mark {
            Some(mark) => mark.clone(),
            None => continue,
        };
        if !marks.contains(&name) {
            marks.push(name);
        }
    }
    let names = letters.wrapped(&marks.join(", "), width);
    lines.extend(names.into_iter().map(|line| (line, false)));
    lines
}

/// Insets in rows.
pub(super) struct Shelves<'b, 'a> {
    /// Each at its upper left corner.
    pub(super) put: Vec<(Point, &'b Inset<'a>)>,
    /// Those that found no room.
    pub(super) left_over: Vec<&'b Inset<'a>>,
    /// How high the rows are in all.
    pub(super) height: f64,
}

/// Puts insets into a part of the page, in rows from its top.
pub(super) fn shelves<'b, 'a>(insets: Vec<&'b Inset<'a>>, within: Rect, gap: f64) -> Shelves<'b, 'a> {
    let mut left_over = Vec::new();
    let mut rows: Vec<Vec<&Inset<'a>>> = Vec::new();
    let width = |row: &[&Inset<'a>]| {
        row.iter().map(|inset| inset.size.width).sum::<f64>() + gap * row.len().saturating_sub(1) as f64
    };
    // The pictures of a row begin at one height, so that the highest title and picture count.
    let titles = |row: &[&Inset<'a>]| row.iter().map(|inset| inset.title_height).fold(0.0, f64::max);
    let height =
        |row: &[&Inset<'a>]| titles(row) + row.iter().map(|inset| inset.picture.height).fold(0.0, f64::max);
    let total = |rows: &[Vec<&Inset<'a>>]| {
        rows.iter().map(|row| height(row)).sum::<f64>() + gap * rows.len().saturating_sub(1) as f64
    };
    for inset in insets {
        let mut tried = rows.clone();
        match tried.last_mut() {
            Some(row) if width(row) + gap + inset.size.width <= within.width() => row.push(inset),
            _ => tried.push(vec![inset]),
        }
        let fits = tried.iter().all(|row| width(row) <= within.width()) && total(&tried) <= within.height();
        if fits && left_over.is_empty() {
            rows = tried;
        } else {
            left_over.push(inset);
        }
    }
    let used = total(&rows);
    let mut put = Vec::new();
    let mut top = within.y0;
    for row in rows {
        let mut left = within.center().x - width(&row) / 2.0;
        let (high, title) = (height(&row), titles(&row));
        for inset in row {
            put.push((Point::new(left, top + title - inset.title_height), inset));
            left += inset.size.width + gap;
        }
        top += high + gap;
    }
    Shelves { put, left_over, height: used }
}
