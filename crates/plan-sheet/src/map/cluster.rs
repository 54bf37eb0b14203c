//! Cones that lie close to each other.

use std::collections::BTreeSet;

use lane_distance::LaneNumber;
use session_plan::{Cone, ConeLabel, Plan};

use crate::sheet::spans::{cone_ranges, lane_ranges};

/// Cones that lie so close to each other that they share a flag on the map.
#[derive(Clone, Debug)]
pub(super) struct Cluster<'a> {
    /// In the order of their numbers.
    pub(super) cones: Vec<&'a Cone>,
}

impl<'a> Cluster<'a> {
    /// Cones closer than some metres to another of the same cluster, each cluster by its first cone.
    pub(super) fn all(plan: &'a Plan, close_m: f64) -> Vec<Self> {
        let mut clusters: Vec<Self> = Vec::new();
        for cone in &plan.setup {
            let is_close = |cluster: &Self| {
                let spot = &cone.spot;
                (cluster.cones.iter())
                    .any(|other| libm::hypot(other.spot.x_m - spot.x_m, other.spot.y_m - spot.y_m) < close_m)
            };
            let (near, mut far): (Vec<Self>, Vec<Self>) = clusters.into_iter().partition(is_close);
            let mut cones: Vec<&Cone> = near.into_iter().flat_map(|cluster| cluster.cones).collect();
            cones.push(cone);
            cones.sort_by_key(|cone| cone.order);
            far.push(Self { cones });
            clusters = far;
        }
        clusters.sort_by_key(|cluster| cluster.cones[0].order);
        clusters
    }

    /// The numbers of its cones, such as `5–7, 9`; starts in front of finishes, `S1–S3, F1–F3`, however they follow on the
    /// walk.
    pub(super) fn numbers(&self) -> String {
        let mut labels: Vec<ConeLabel> = self.cones.iter().map(|cone| cone.label).collect();
        labels.sort_unstable();
        cone_ranges(labels)
    }

    /// Its lanes, such as `lanes 3–5`.
    pub(super) fn lanes(&self) -> String {
        let lanes: BTreeSet<LaneNumber> = self.cones.iter().map(|cone| cone.spot.lane).collect();
        lane_ranges(&lanes.into_iter().collect::<Vec<_>>())
    }
}
