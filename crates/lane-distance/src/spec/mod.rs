//! What track files and mark sets describe, before anything is checked.
//!
//! [`Track::build`](crate::Track::build) makes a track of a [`TrackSpec`], or says what is wrong with it.

pub(crate) mod closed_spec;
pub(crate) mod hurdles;
pub(crate) mod length_spec;
pub(crate) mod mark_set;
pub(crate) mod mark_spec;
pub(crate) mod marks_spec;
pub(crate) mod one_or_many;
pub(crate) mod piece_spec;
pub(crate) mod tolerances;
pub(crate) mod track_spec;

pub use crate::geometry::lane::InnerEdge;
pub use closed_spec::{ClosedBecause, ClosedSpec};
pub use hurdles::Hurdles;
pub use length_spec::{LengthError, LengthSpec};
pub use mark_set::MarkSet;
pub use mark_spec::{KnownLine, MarkSpec};
pub use marks_spec::{MarksSpec, WornSpec};
pub use one_or_many::OneOrMany;
pub use piece_spec::PieceSpec;
pub use tolerances::Tolerances;
pub use track_spec::{RadiusAt, StraightSpec, TrackSpec};
