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

/// A picture as it was read.
#[derive(Debug)]
pub(crate) struct Picture {
    pub(crate) texts: Vec<Box>,
    pub(crate) flags: Vec<Box>,
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
        Self { texts, flags: flags(&document, width_mm), width_mm, size }
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
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/fonts");
    let database = Arc::make_mut(&mut options.fontdb);
    for name in ["OpenSans-Regular.ttf", "OpenSans-Bold.ttf", "DejaVuSans.ttf"] {
        database.load_font_data(std::fs::read(format!("{folder}/{name}")).expect("the typeface is there"));
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
    let view: Vec<f64> = numbers(document.root_element().attribute("viewBox").expect("it has a view"));
    // usvg counts a millimetre as 96/25.4 pixels.
    let pixels = width_mm * 96.0 / 25.4 / view[2];
    document
        .descendants()
        .filter(|node| node.attribute("class") == Some("flag"))
        .map(|flag| {
            let rect = flag.children().find(|child| child.has_tag_name("rect")).expect("a flag has a box");
            let value = |name: &str| -> f64 {
                rect.attribute(name).expect("a box has it").parse().expect("it is a number")
            };
            let (mut x, mut y) = (value("x"), value("y"));
            let (mut wide, mut high) = (value("width"), value("height"));
            for group in flag.ancestors().filter(|node| node.has_attribute("transform")) {
                let (moved, scale) = transform(group.attribute("transform").expect("it was asked for"));
                (x, y) = (x * scale + moved.0, y * scale + moved.1);
                (wide, high) = (wide * scale, high * scale);
            }
            let (left, top) = ((x - view[0]) * pixels, (y - view[1]) * pixels);
            Box {
                words: flag
                    .descendants()
                    .filter(roxmltree::Node::is_text)
                    .filter_map(|node| node.text())
                    .collect::<String>()
                    .trim()
                    .to_owned(),
                x: (left, left + wide * pixels),
                y: (top, top + high * pixels),
                size: f64::MAX,
            }
        })
        .collect()
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
