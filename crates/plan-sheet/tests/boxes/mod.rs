//! Where a picture has its texts and flags, as an independent reader of SVG lays them out (usvg, with the
//! typefaces of the repository and no others).

use std::sync::{Arc, LazyLock};

use resvg::usvg::{self, Group, Node, Options, Tree};

/// A box on the page.
#[derive(Clone, Debug)]
pub(crate) struct Box {
    pub(crate) words: String,
    pub(crate) x: (f64, f64),
    pub(crate) y: (f64, f64),
    /// Size of its type, in units of the picture's own width and height.
    pub(crate) size: f64,
}

/// Less than this is rounding.
const HAIR: f64 = 1e-3;

impl Box {
    fn overlaps(&self, other: &Self) -> bool {
        let deep = |a: (f64, f64), b: (f64, f64)| a.1.min(b.1) - a.0.max(b.0) > HAIR;
        deep(self.x, other.x) && deep(self.y, other.y)
    }

    fn holds(&self, other: &Self) -> bool {
        let within = |a: (f64, f64), b: (f64, f64)| a.0 <= b.0 + HAIR && b.1 <= a.1 + HAIR;
        within(self.x, other.x) && within(self.y, other.y)
    }
}

impl Box {
    /// Whether a line goes through what letters without tails take of it.
    fn is_crossed_by(&self, [from, to]: [(f64, f64); 2]) -> bool {
        let quarter = (self.y.1 - self.y.0) / 4.0;
        // The part of the line that lies within both pairs of sides (Liang and Barsky).
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (at, by, sides) in [
            (from.0, to.0 - from.0, (self.x.0 + HAIR, self.x.1 - HAIR)),
            (from.1, to.1 - from.1, (self.y.0 + quarter, self.y.1 - quarter)),
        ] {
            if by.abs() < 1e-9 {
                if at <= sides.0 || at >= sides.1 {
                    return false;
                }
                continue;
            }
            let (one, other) = ((sides.0 - at) / by, (sides.1 - at) / by);
            enters = enters.max(one.min(other));
            leaves = leaves.min(one.max(other));
        }
        enters < leaves
    }
}

/// A picture as it was read.
#[derive(Debug)]
pub(crate) struct Picture {
    pub(crate) texts: Vec<Box>,
    pub(crate) flags: Vec<Box>,
    /// Straight lines from end to end, such as those from cone to cone and across closed lanes.
    lines: Vec<[(f64, f64); 2]>,
    /// How wide it wants to be, in millimetres.
    pub(crate) width_mm: f64,
    size: (f64, f64),
}

impl Picture {
    pub(crate) fn read(svg: &str) -> Self {
        static OPTIONS: LazyLock<Options<'static>> = LazyLock::new(options);
        let tree = Tree::from_str(svg, &OPTIONS).expect("it is SVG");
        let mut texts = Vec::new();
        add_texts(tree.root(), &mut texts);
        let document = roxmltree::Document::parse(svg).expect("it is XML");
        let width = document.root_element().attribute("width").expect("it has a width");
        let width_mm: f64 = width.trim_end_matches("mm").parse().expect("it is a number of millimetres");
        let size = (f64::from(tree.size().width()), f64::from(tree.size().height()));
        Self { texts, flags: flags(&document, width_mm), lines: lines(&document, width_mm), width_mm, size }
    }

    /// What overlaps: texts with each other, and flags with each other and with texts that are not their own.
    pub(crate) fn overlaps(&self) -> Vec<(String, String)> {
        let Self { texts, flags, .. } = self;
        let mut found = Vec::new();
        for (index, text) in texts.iter().enumerate() {
            for other in texts[index + 1..].iter().filter(|other| text.overlaps(other)) {
                found.push((text.words.clone(), other.words.clone()));
            }
        }
        for (index, flag) in flags.iter().enumerate() {
            for other in flags[index + 1..].iter().filter(|other| flag.overlaps(other)) {
                found.push((format!("flag {}", flag.words), format!("flag {}", other.words)));
            }
            let mut own = 0;
            for text in texts.iter().filter(|text| flag.overlaps(text)) {
                if text.words == flag.words && flag.holds(text) {
                    own += 1;
                } else {
                    found.push((format!("flag {}", flag.words), text.words.clone()));
                }
            }
            if own != 1 {
                found.push((format!("flag {}", flag.words), format!("{own} texts of its own")));
            }
        }
        found
    }

    /// The texts that a line goes through; those of flags have a box under them.
    pub(crate) fn struck(&self) -> Vec<&str> {
        let is_flag = |text: &Box| self.flags.iter().any(|flag| flag.holds(text));
        let is_struck = |text: &Box| self.lines.iter().any(|line| text.is_crossed_by(*line));
        let struck = self.texts.iter().filter(|text| !is_flag(text) && is_struck(text));
        struck.map(|text| text.words.as_str()).collect()
    }

    /// The texts that reach beyond its edges.
    pub(crate) fn clipped(&self) -> Vec<&str> {
        let (width, height) = self.size;
        let page = ((-0.01, width + 0.01), (-0.01, height + 0.01));
        let is_out = |text: &&Box| {
            text.x.0 < page.0.0 || text.x.1 > page.0.1 || text.y.0 < page.1.0 || text.y.1 > page.1.1
        };
        self.texts.iter().filter(is_out).map(|text| text.words.as_str()).collect()
    }
}

/// A reader with the typefaces of the repository.
fn options() -> Options<'static> {
    let mut options = Options { font_family: "Open Sans".to_owned(), ..Options::default() };
    let database = Arc::make_mut(&mut options.fontdb);
    for typeface in [
        include_bytes!("../../fonts/OpenSans-Regular.ttf").as_slice(),
        include_bytes!("../../fonts/OpenSans-Bold.ttf"),
        include_bytes!("../../fonts/DejaVuSans.ttf"),
    ] {
        database.load_font_data(typeface.to_vec());
    }
    assert_eq!(database.len(), 3);
    options
}

fn add_texts(group: &Group, found: &mut Vec<Box>) {
    for node in group.children() {
        match node {
            Node::Group(group) => add_texts(group, found),
            Node::Text(text) => {
                let bounds = text.abs_bounding_box();
                let scale = text.abs_transform().get_scale().0;
                let spans = text.chunks().iter().flat_map(usvg::TextChunk::spans);
                let size = spans.map(|span| span.font_size().get() * scale).fold(f32::MAX, f32::min);
                found.push(Box {
                    words: text.chunks().iter().map(usvg::TextChunk::text).collect(),
                    x: (bounds.left().into(), bounds.right().into()),
                    y: (bounds.top().into(), bounds.bottom().into()),
                    size: size.into(),
                });
            }
            _ => {}
        }
    }
}

/// The boxes of flags: rectangles, in the units in which texts are told.
fn flags(document: &roxmltree::Document<'_>, width_mm: f64) -> Vec<Box> {
    let page = Page::of(document, width_mm);
    document
        .descendants()
        .filter(|node| node.attribute("class") == Some("flag"))
        .map(|flag| {
            let rect = flag.children().find(|child| child.has_tag_name("rect")).expect("a flag has a box");
            let (left, top) = (value(rect, "x"), value(rect, "y"));
            let [from, to] = [(left, top), (left + value(rect, "width"), top + value(rect, "height"))]
                .map(|corner| page.point(flag, corner));
            Box {
                words: flag
                    .descendants()
                    .filter(roxmltree::Node::is_text)
                    .filter_map(|node| node.text())
                    .collect::<String>()
                    .trim()
                    .to_owned(),
                x: (from.0, to.0),
                y: (from.1, to.1),
                size: f64::MAX,
            }
        })
        .collect()
}

/// The lines that are drawn over what lies under them: not those of a flag, and not those of paint.
fn lines(document: &roxmltree::Document<'_>, width_mm: f64) -> Vec<[(f64, f64); 2]> {
    let page = Page::of(document, width_mm);
    let is_paint = |line: &roxmltree::Node<'_, '_>| {
        line.ancestors()
            .any(|node| matches!(node.attribute("class"), Some("magnified" | "paint" | "strip" | "unrolled")))
    };
    let lines = document.descendants().filter(|node| node.has_tag_name("line") && !is_paint(node));
    let ends =
        |line| [("x1", "y1"), ("x2", "y2")].map(|(x, y)| page.point(line, (value(line, x), value(line, y))));
    lines.map(ends).chain(hatching(document, &page)).collect()
}

/// The strokes across closed lanes, each a path of its own within one that holds them all.
fn hatching(document: &roxmltree::Document<'_>, page: &Page) -> Vec<[(f64, f64); 2]> {
    let closed = document.descendants().filter(|node| node.attribute("class") == Some("closed"));
    let strokes = closed.flat_map(|path| {
        let d = path.attribute("d").expect("a path has data");
        // What lies beyond the picture that a stroke belongs to is not drawn.
        let shown = clip_of(path).map(|clip| {
            let (left, top) = (value(clip, "x"), value(clip, "y"));
            (left..=left + value(clip, "width"), top..=top + value(clip, "height"))
        });
        d.split('M').skip(1).filter_map(move |stroke| {
            let ends: Vec<f64> =
                stroke.split(['L', ' ']).map(|number| number.parse().expect("it is a number")).collect();
            let ends = [(ends[0], ends[1]), (ends[2], ends[3])];
            let is_shown = |(x, y): &(f64, f64)| {
                shown.as_ref().is_none_or(|(across, down)| across.contains(x) && down.contains(y))
            };
            ends.iter().all(is_shown).then(|| ends.map(|end| page.point(path, end)))
        })
    });
    strokes.collect()
}

/// The rectangle to which something drawn is cut, if it is.
fn clip_of<'a>(drawn: roxmltree::Node<'a, 'a>) -> Option<roxmltree::Node<'a, 'a>> {
    let id = drawn.ancestors().find_map(|node| node.attribute("clip-path"))?;
    let id = id.strip_prefix("url(#")?.strip_suffix(')')?;
    let clip = drawn.document().descendants().find(|node| node.attribute("id") == Some(id))?;
    clip.children().find(|child| child.has_tag_name("rect"))
}

/// A page: where it begins, and pixels to a unit.
struct Page {
    corner: (f64, f64),
    pixels: f64,
}

impl Page {
    fn of(document: &roxmltree::Document<'_>, width_mm: f64) -> Self {
        let view: Vec<f64> = numbers(document.root_element().attribute("viewBox").expect("it has a view"));
        // usvg counts a millimetre as 96/25.4 pixels.
        Self { corner: (view[0], view[1]), pixels: width_mm * 96.0 / 25.4 / view[2] }
    }

    /// A point of something that is drawn, in the units in which texts are told.
    fn point(&self, drawn: roxmltree::Node<'_, '_>, (mut x, mut y): (f64, f64)) -> (f64, f64) {
        for group in drawn.ancestors().filter(|node| node.has_attribute("transform")) {
            let (moved, scale) = transform(group.attribute("transform").expect("it was asked for"));
            (x, y) = (x * scale + moved.0, y * scale + moved.1);
        }
        ((x - self.corner.0) * self.pixels, (y - self.corner.1) * self.pixels)
    }
}

fn value(drawn: roxmltree::Node<'_, '_>, name: &str) -> f64 {
    drawn.attribute(name).expect("it has it").parse().expect("it is a number")
}

/// `translate(x y)` and `scale(s)`, which is all that the pictures use.
fn transform(text: &str) -> ((f64, f64), f64) {
    let mut moved = (0.0, 0.0);
    let mut scale = 1.0;
    for part in text.split(')').filter(|part| !part.trim().is_empty()) {
        let (name, values) = part.split_once('(').expect("a transform has values");
        let values = numbers(values);
        match name.trim() {
            "translate" => moved = (values[0], values[1]),
            "scale" => scale = values[0],
            other => panic!("{other} is not expected"),
        }
    }
    (moved, scale)
}

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|number| number.parse().expect("it is a number")).collect()
}
