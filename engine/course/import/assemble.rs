//! From nodes, ways and relations, in whatever order a file lists them, to features with a shape.
//!
//! Nodes may follow the ways that use them, so that shapes are put together when the whole file is read. To keep memory
//! low, untagged nodes are kept as bare points, and ways without a meaning to golf as bare lists of node numbers, since
//! they may still be the edge of an area.

use std::collections::HashSet;

use super::kind::Kind;
use super::map::{Element, Feature, Form, Id, Map, Patch, Place, Tags};
use super::rings;

/// The most points, and the most members of ways, that a map may have: a 400 MB file.
pub(super) const MOST_POINTS: usize = 5_000_000;
/// The most features kept.
const MOST_FEATURES: usize = 500_000;

/// A map that is larger than any course needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct TooLarge;

/// The places of a line, and how many of its points the file lacks.
pub(super) type Drawn = (Vec<Place>, usize);

/// A way as it was read: its nodes, or its places where the file tells them in place.
#[derive(Debug)]
struct Way {
    number: i64,
    from: usize,
    to: usize,
    places: Option<Drawn>,
    meaning: Option<(Kind, Tags)>,
}

/// A member of a multipolygon.
#[derive(Debug)]
pub(super) struct Member {
    /// Number of the way.
    pub(super) way: i64,
    /// Whether it is the edge of an island.
    pub(super) is_inner: bool,
    /// Its places, where the file tells them in place.
    pub(super) places: Option<Drawn>,
}

#[derive(Debug)]
struct Relation {
    number: i64,
    members: Vec<Member>,
    meaning: Option<(Kind, Tags)>,
}

/// Gathers the elements of a map.
#[derive(Debug, Default)]
pub(super) struct Assembler {
    points: Vec<(i64, Place)>,
    nodes_of_ways: Vec<i64>,
    ways: Vec<Way>,
    relations: Vec<Relation>,
    map: Map,
}

impl Assembler {
    /// Adds a node.
    pub(super) fn node(
        &mut self,
        number: i64,
        place: Place,
        meaning: Option<(Kind, Tags)>,
    ) -> Result<(), TooLarge> {
        self.points.push((number, place));
        if let Some((kind, tags)) = meaning {
            let id = Id {
                element: Element::Node,
                number,
            };
            self.feature(Feature {
                id,
                kind,
                tags,
                form: Form::Point(place),
                lost_points: 0,
            })?;
        }
        fits(self.points.len(), MOST_POINTS)
    }

    /// Adds a way of nodes.
    pub(super) fn way(
        &mut self,
        number: i64,
        nodes: &[i64],
        meaning: Option<(Kind, Tags)>,
    ) -> Result<(), TooLarge> {
        let from = self.nodes_of_ways.len();
        self.nodes_of_ways.extend_from_slice(nodes);
        let to = self.nodes_of_ways.len();
        self.ways.push(Way {
            number,
            from,
            to,
            places: None,
            meaning,
        });
        fits(to, MOST_POINTS)?;
        fits(self.ways.len(), MOST_POINTS)
    }

    /// Adds a way whose places the file tells in place.
    pub(super) fn way_of_places(
        &mut self,
        number: i64,
        places: Drawn,
        meaning: Option<(Kind, Tags)>,
    ) -> Result<(), TooLarge> {
        let end = self.nodes_of_ways.len();
        self.ways.push(Way {
            number,
            from: end,
            to: end,
            places: Some(places),
            meaning,
        });
        fits(self.ways.len(), MOST_POINTS)
    }

    /// Adds a multipolygon.
    pub(super) fn multipolygon(
        &mut self,
        number: i64,
        members: Vec<Member>,
        meaning: Option<(Kind, Tags)>,
    ) -> Result<(), TooLarge> {
        self.relations.push(Relation {
            number,
            members,
            meaning,
        });
        fits(self.relations.len(), MOST_FEATURES)
    }

    /// Adds a feature that has its shape already.
    pub(super) fn feature(&mut self, feature: Feature) -> Result<(), TooLarge> {
        self.map.features.push(feature);
        fits(self.map.features.len(), MOST_FEATURES)
    }

    /// Notes a golf feature without a shape.
    pub(super) fn shapeless(&mut self, label: String) {
        self.map.shapeless.push(label);
    }

    /// The map, with the shapes put together.
    pub(super) fn finish(mut self) -> Map {
        self.points.sort_by_key(|(number, _)| *number);
        self.points.dedup_by_key(|(number, _)| *number);
        self.ways.sort_by_key(|way| way.number);
        self.ways.dedup_by_key(|way| way.number);
        let areas = self.areas();
        // The outer way of an area that means the same is not counted a second time.
        let covered: HashSet<i64> = areas
            .iter()
            .flat_map(|(_, covered)| covered.iter().copied())
            .collect();
        let mut lines = Vec::new();
        for way in self
            .ways
            .iter()
            .filter(|way| !covered.contains(&way.number))
        {
            if let Some((kind, tags)) = &way.meaning {
                let (places, lost_points) = self.places(way);
                let id = Id {
                    element: Element::Way,
                    number: way.number,
                };
                let form = Form::Line(places);
                lines.push(Feature {
                    id,
                    kind: *kind,
                    tags: tags.clone(),
                    form,
                    lost_points,
                });
            }
        }
        let areas = areas.into_iter().map(|(area, _)| area);
        // What was clipped or taken apart comes under one name with several shapes, each with its own; an element of the
        // map comes twice where extracts overlap, and once is enough.
        let is_shape = |feature: &Feature| !matches!(feature.form, Form::Point(_));
        let come_with_shapes = self.map.features.iter().any(is_shape);
        for feature in areas.chain(lines) {
            if feature.form.places().next().is_some() {
                self.map.features.push(feature);
            } else {
                self.map.shapeless.push(feature.label());
            }
        }
        self.map.features.sort_by_key(|feature| feature.id);
        self.map.features.dedup_by(|one, other| {
            one.id == other.id && (!come_with_shapes || one.form == other.form)
        });
        self.map
    }

    /// The areas of the relations, each with the ways it stands for.
    fn areas(&self) -> Vec<(Feature, Vec<i64>)> {
        let relations = self.relations.iter();
        relations
            .filter_map(|relation| self.area(relation))
            .collect()
    }

    fn area(&self, relation: &Relation) -> Option<(Feature, Vec<i64>)> {
        let outer = || relation.members.iter().filter(|member| !member.is_inner);
        // Of old, the tags stood on the outer way.
        let of_way = || outer().find_map(|member| self.way_of(member.way)?.meaning.clone());
        let (kind, tags) = relation.meaning.clone().or_else(of_way)?;
        let (mut outlines, mut islands) = (Vec::new(), Vec::new());
        let mut lost_points = 0;
        for member in &relation.members {
            let (places, lost) = self.member_places(member);
            lost_points += lost;
            let list = if member.is_inner {
                &mut islands
            } else {
                &mut outlines
            };
            list.push(places);
        }
        let form = Form::Area(patches(rings::joined(outlines), rings::joined(islands)));
        let same = |member: &&Member| {
            let way = self.way_of(member.way);
            way.is_some_and(|way| {
                way.meaning
                    .as_ref()
                    .is_some_and(|(other, _)| *other == kind)
            })
        };
        let covered = outer().filter(same).map(|member| member.way).collect();
        let id = Id {
            element: Element::Relation,
            number: relation.number,
        };
        Some((
            Feature {
                id,
                kind,
                tags,
                form,
                lost_points,
            },
            covered,
        ))
    }

    fn way_of(&self, number: i64) -> Option<&Way> {
        let at = self
            .ways
            .binary_search_by_key(&number, |way| way.number)
            .ok()?;
        self.ways.get(at)
    }

    fn member_places(&self, member: &Member) -> Drawn {
        match (&member.places, self.way_of(member.way)) {
            (Some(places), _) => places.clone(),
            (None, Some(way)) => self.places(way),
            (None, None) => (Vec::new(), 1),
        }
    }

    fn places(&self, way: &Way) -> Drawn {
        if let Some(places) = &way.places {
            return places.clone();
        }
        let nodes = &self.nodes_of_ways[way.from..way.to];
        let place = |node: &i64| {
            let at = self
                .points
                .binary_search_by_key(node, |(number, _)| *number)
                .ok()?;
            self.points.get(at).map(|(_, place)| *place)
        };
        let places: Vec<Place> = nodes.iter().filter_map(place).collect();
        let lost = nodes.len() - places.len();
        (places, lost)
    }
}

/// Outlines, each with the islands that lie in it.
pub(super) fn patches(outlines: Vec<Vec<Place>>, islands: Vec<Vec<Place>>) -> Vec<Patch> {
    let mut patches: Vec<Patch> = outlines
        .into_iter()
        .map(|outline| Patch {
            outline,
            islands: Vec::new(),
        })
        .collect();
    for island in islands {
        let holds = |patch: &&mut Patch| {
            island
                .first()
                .is_some_and(|place| rings::holds(&patch.outline, *place))
        };
        if let Some(patch) = patches.iter_mut().find(holds) {
            patch.islands.push(island);
        }
    }
    patches
}

fn fits(count: usize, most: usize) -> Result<(), TooLarge> {
    if count > most { Err(TooLarge) } else { Ok(()) }
}
