//! A kiln as a hot room behind a wall: heat conduction through the wall in one dimension, stepped so that no heat is lost in the
//! reckoning.

/// Cells through the wall.
const CELLS: usize = 20;
/// How often a wall leaks more, or less, than its size and lining say, at most.
pub const MOST_OFF: f64 = 6.0;

/// A wall all around, as one slab of the mean of its inner and outer area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Mean area, m².
    pub area: f64,
    /// Thickness, m.
    pub thick: f64,
    /// Heat conductivity, W/(m K).
    pub conductivity: f64,
    /// Density times heat capacity, J/(m³ K).
    pub heat: f64,
    /// Heat taken off its outside by air and radiation, W/(m² K).
    pub outside: f64,
}

impl Wall {
    /// Heat lost once everything is steady, W per K between inside and room.
    pub fn loss(&self) -> f64 {
        1.0 / (self.thick / (self.conductivity * self.area) + 1.0 / (self.outside * self.area))
    }

    /// Its whole heat capacity, J/K.
    pub fn capacity(&self) -> f64 {
        self.area * self.thick * self.heat
    }

    /// The time constant of cooling as one lump, s: what is inside and half the wall, over the loss.
    pub fn time_constant(&self, inside: f64) -> f64 {
        (inside + self.capacity() / 2.0) / self.loss()
    }

    /// The same wall that lets so many times more heat through.
    #[must_use]
    pub fn leaking(self, times: f64) -> Self {
        Self { conductivity: self.conductivity * times, outside: self.outside * times, ..self }
    }
}

/// A kiln at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    wall: Wall,
    /// Heat capacity of what is inside, J/K.
    inside: f64,
    room: f64,
    /// Temperature inside, °C, then of the wall's cells from the inside out.
    at: [f64; CELLS + 1],
    /// Heat that came from the elements so far, J.
    pub given: f64,
    /// Heat that went into the room so far, J.
    pub lost: f64,
}

impl Heat {
    /// A kiln as warm as its room, °C.
    pub fn cold(wall: Wall, inside: f64, room: f64) -> Self {
        Self { wall, inside, room, at: [room; CELLS + 1], given: 0.0, lost: 0.0 }
    }

    /// Temperature inside, °C.
    pub fn inside(&self) -> f64 {
        self.at[0]
    }

    /// Heat held inside and in the wall, J above the room's temperature.
    pub fn stored(&self) -> f64 {
        let cell = self.wall.capacity() / CELLS as f64;
        let wall: f64 = self.at[1..].iter().map(|t| t - self.room).sum();
        self.inside * (self.at[0] - self.room) + cell * wall
    }

    /// Goes on by so many seconds, toward a temperature inside with at most so many watts; as near as power allows. The power used, W.
    pub fn step(&mut self, seconds: f64, toward: f64, most: f64) -> f64 {
        // The step is linear in the power: what happens without any, and what one watt adds.
        let (idle, watt) = (self.solve(seconds, &self.at), self.solve_for_a_watt(seconds));
        let power = ((toward - idle[0]) / watt[0]).clamp(0.0, most);
        for (at, (idle, watt)) in self.at.iter_mut().zip(idle.iter().zip(&watt)) {
            *at = idle + power * watt;
        }
        self.given += power * seconds;
        self.lost += self.to_room() * (self.at[CELLS] - self.room) * seconds;
        power
    }

    /// From the middle of the outermost cell into the room, W/K.
    fn to_room(&self) -> f64 {
        let half_cell = self.wall.thick / CELLS as f64 / 2.0;
        1.0 / (half_cell / (self.wall.conductivity * self.wall.area)
            + 1.0 / (self.wall.outside * self.wall.area))
    }

    /// An implicit step without power: every temperature at its end, the room's included as it is.
    fn solve(&self, seconds: f64, before: &[f64; CELLS + 1]) -> [f64; CELLS + 1] {
        let mut right = [0.0; CELLS + 1];
        for (i, right) in right.iter_mut().enumerate() {
            *right = self.capacity(i) / seconds * before[i];
        }
        right[CELLS] += self.to_room() * self.room;
        self.tridiagonal(seconds, right)
    }

    fn solve_for_a_watt(&self, seconds: f64) -> [f64; CELLS + 1] {
        let mut right = [0.0; CELLS + 1];
        right[0] = 1.0;
        self.tridiagonal(seconds, right)
    }

    fn capacity(&self, node: usize) -> f64 {
        if node == 0 { self.inside } else { self.wall.capacity() / CELLS as f64 }
    }

    /// Between a node and the next one further out, W/K; the inside face of the wall is as hot as the inside.
    fn between(&self, node: usize) -> f64 {
        let cell = self.wall.thick / CELLS as f64;
        let way = if node == 0 { cell / 2.0 } else { cell };
        self.wall.conductivity * self.wall.area / way
    }

    /// Thomas's elimination.
    fn tridiagonal(&self, seconds: f64, mut right: [f64; CELLS + 1]) -> [f64; CELLS + 1] {
        let mut factor = [0.0; CELLS + 1];
        for i in 0..=CELLS {
            let inward = if i == 0 { 0.0 } else { self.between(i - 1) };
            let outward = if i == CELLS { self.to_room() } else { self.between(i) };
            let carried = if i == 0 { 0.0 } else { inward * factor[i - 1] };
            let pivot = self.capacity(i) / seconds + inward + outward - carried;
            factor[i] = if i == CELLS { 0.0 } else { outward / pivot };
            let from_inside = if i == 0 { 0.0 } else { inward * right[i - 1] };
            right[i] = (right[i] + from_inside) / pivot;
        }
        for i in (0..CELLS).rev() {
            right[i] += factor[i] * right[i + 1];
        }
        right
    }
}
