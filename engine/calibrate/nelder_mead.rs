//! The downhill simplex of J.A. Nelder & R. Mead (1965), Computer Journal 7, 308–313.

/// A point and its cost.
type Corner = (Vec<f64>, f64);

/// The point of least cost found from `start`, with `scale` the first step in each axis; started again from the
/// best point a few times, since the simplex can flatten too early.
pub fn least(cost: impl Fn(&[f64]) -> f64, start: &[f64], scale: &[f64]) -> Corner {
    let mut best = (start.to_vec(), cost(start));
    for round in 0..12 {
        let shrink = 0.7_f64.powi(round);
        let steps: Vec<f64> = scale.iter().map(|s| s * shrink).collect();
        let found = descend(&cost, &best.0, &steps);
        if found.1 < best.1 {
            best = found;
        }
    }
    best
}

fn descend(cost: &impl Fn(&[f64]) -> f64, start: &[f64], steps: &[f64]) -> Corner {
    let mut corners: Vec<Corner> = vec![(start.to_vec(), cost(start))];
    for (axis, step) in steps.iter().enumerate() {
        let mut point = start.to_vec();
        point[axis] += step;
        let value = cost(&point);
        corners.push((point, value));
    }
    for _ in 0..4000 {
        corners.sort_by(|a, b| a.1.total_cmp(&b.1));
        let last = corners.len() - 1;
        if corners[last].1 - corners[0].1 < 1e-12 {
            break;
        }
        improve(cost, &mut corners);
    }
    corners.sort_by(|a, b| a.1.total_cmp(&b.1));
    corners.swap_remove(0)
}

/// Moves the worst corner through the middle of the others, or draws all toward the best.
fn improve(cost: &impl Fn(&[f64]) -> f64, corners: &mut [Corner]) {
    let last = corners.len() - 1;
    let middle: Vec<f64> = (0..corners[0].0.len())
        .map(|axis| corners[..last].iter().map(|c| c.0[axis]).sum::<f64>() / last as f64)
        .collect();
    let worst = corners[last].clone();
    let at = |factor: f64| {
        let point: Vec<f64> = middle
            .iter()
            .zip(&worst.0)
            .map(|(m, w)| m + factor * (m - w))
            .collect();
        let value = cost(&point);
        (point, value)
    };
    let reflected = at(1.0);
    let (best, second_worst) = (corners[0].1, corners[last - 1].1);
    let moved = if reflected.1 < best {
        let expanded = at(2.0);
        if expanded.1 < reflected.1 {
            expanded
        } else {
            reflected
        }
    } else if reflected.1 < second_worst {
        reflected
    } else {
        at(if reflected.1 < worst.1 { 0.5 } else { -0.5 })
    };
    if moved.1 < worst.1 {
        corners[last] = moved;
        return;
    }
    let best_point = corners[0].0.clone();
    for corner in &mut corners[1..] {
        for (x, b) in corner.0.iter_mut().zip(&best_point) {
            *x = 0.5 * (*x + b);
        }
        corner.1 = cost(&corner.0);
    }
}
