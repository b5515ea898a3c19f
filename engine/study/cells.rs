//! The order of cells: the product of lists, numbered with the last list running fastest.

/// How long the lists of a combination are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Shape {
    pub players: usize,
    pub courses: usize,
    pub days: usize,
    pub rules: usize,
    pub changes: usize,
    pub goals: usize,
}

impl Shape {
    pub fn cells(&self) -> u64 {
        self.groups() * (self.changes * self.goals) as u64
    }

    /// Players on courses on days under rules: what is solved once.
    pub fn groups(&self) -> u64 {
        (self.players as u64) * (self.courses * self.days * self.rules) as u64
    }

    /// The number of a cell by its places: player, course, day, rules, change, goal.
    pub fn number(&self, [player, course, day, rules, change, goal]: [usize; 6]) -> u64 {
        let at = player as u64;
        let at = at * self.courses as u64 + course as u64;
        let at = at * self.days as u64 + day as u64;
        let at = at * self.rules as u64 + rules as u64;
        let at = at * self.changes as u64 + change as u64;
        at * self.goals as u64 + goal as u64
    }

    /// Courses, days and rules in the order they are worked out.
    pub fn blocks(self) -> impl Iterator<Item = [usize; 3]> {
        (0..self.courses).flat_map(move |course| {
            (0..self.days)
                .flat_map(move |day| (0..self.rules).map(move |rules| [course, day, rules]))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cell_has_a_number_of_its_own() {
        let shape = Shape {
            players: 3,
            courses: 2,
            days: 2,
            rules: 1,
            changes: 2,
            goals: 3,
        };
        let mut numbers = Vec::new();
        for player in 0..3 {
            for [course, day, rules] in shape.blocks() {
                for change in 0..2 {
                    for goal in 0..3 {
                        numbers.push(shape.number([player, course, day, rules, change, goal]));
                    }
                }
            }
        }
        assert_eq!(shape.cells(), 72);
        assert_eq!(numbers, (0..72).collect::<Vec<u64>>());
    }
}
