//! legend
