use super::{Kills, LifeStage, LifeTable};

/// Sub-stages of each immature stage: mean² over variance of its length (choice).
const STEPS_OF_STAGE: u16 = 16;
/// Sub-stages before the first egg (choice).
const STEPS_BEFORE_EGGS: u16 = 4;
/// Fastest rate times step, no unit, at which four terms are good to 1e-9 of the whole in four weeks (computed).
const LONGEST_STEP: f64 = 0.5;

/// Animals of each [`LifeStage`]: eggs, young, pupae, adults.
pub type ByStage = [f64; 4];

/// One sub-stage: what goes on to the next and what leaves it altogether, for each degree-day.
#[derive(Clone, Copy, Debug, PartialEq)]
struct SubStage {
    stage: LifeStage,
    /// `a`, 1/(°C·d).
    onwards: f64,
    /// `a + m`, 1/(°C·d).
    leaving: f64,
}

/// A pest population as a distributed delay: each stage a chain of sub-stages, stepped in warmth instead of time, so that any
/// sequence of temperatures works.
///
/// `dx₁/dτ = b·x_ovip − (a₁ + m)·x₁`, `dxⱼ/dτ = aⱼ₋₁·xⱼ₋₁ − (aⱼ + lossⱼ)·xⱼ`, `dx_ovip/dτ = a·x_last − δ·x_ovip`, with
/// `aᵢ = kᵢ/Kᵢ`, `m = −ln S/ΣK`, `δ = 1/L`, `b = sex·F/L`. Manetsch 1976 (from memory); Hurtado and Kirosingh 2019 (abstract read).
#[derive(Clone, Debug, PartialEq)]
pub struct Population {
    chain: Vec<SubStage>,
    /// Eggs of an adult of either sex for each degree-day.
    births: f64,
    fastest: f64,
    numbers: Vec<f64>,
}

/// Growth for each degree-day, 1/(°C·d), of a population in its steady mixture: the `x` of Euler and Lotka.
///
/// `b/(x + δ) · Π [aᵢ/(aᵢ + x + m)]^kᵢ · [a_p/(a_p + x + δ)]^k_p = 1`, halved sixty times, to the last bit (exact). Growth a day is `x·(min(T, TU) − TL)`.
#[must_use]
pub fn growth(life: &LifeTable) -> f64 {
    let (chain, births) = chain_of(life);
    let offspring = |x: f64| {
        chain.iter().fold(births, |product, step| {
            let through = if step.onwards > 0.0 { step.onwards } else { 1.0 };
            product * through / (step.leaving + x)
        })
    };
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if offspring(middle) > 1.0 { low = middle } else { high = middle }
    }
    low
}

/// The chain of sub-stages and the births.
fn chain_of(life: &LifeTable) -> (Vec<SubStage>, f64) {
    let loss = -life.survival.ln() / life.development();
    let death = 1.0 / life.adult_life;
    let mut chain = Vec::new();
    let mut add = |stage, steps: u16, degree_days: f64, loss: f64| {
        let onwards = f64::from(steps) / degree_days;
        for _ in 0..steps {
            chain.push(SubStage {
                stage,
                onwards,
                leaving: onwards + loss,
            });
        }
    };
    for immature in life.immature {
        add(immature.stage, STEPS_OF_STAGE, immature.degree_days, loss);
    }
    add(LifeStage::Adult, STEPS_BEFORE_EGGS, life.pre_oviposition, death);
    chain.push(SubStage {
        stage: LifeStage::Adult,
        onwards: 0.0,
        leaving: death,
    });
    (chain, life.females * life.eggs / life.adult_life)
}

/// Standard deviation of the warmth from egg to adult, °C·d: `√Σ(K²/k)`.
#[must_use]
pub fn spread_of_emergence(life: &LifeTable) -> f64 {
    let of_stage = |degree_days: f64| degree_days * degree_days / f64::from(STEPS_OF_STAGE);
    life.immature.iter().map(|stage| of_stage(stage.degree_days)).sum::<f64>().sqrt()
}

impl Population {
    /// A population in its steady mixture, `total` in all.
    ///
    /// `xⱼ = aⱼ₋₁·xⱼ₋₁/(leavingⱼ + x)`.
    #[must_use]
    pub fn steady(life: &LifeTable, total: f64) -> Self {
        let (chain, births) = chain_of(life);
        let growth = growth(life);
        let mut arriving = 1.0;
        let mut numbers: Vec<f64> = Vec::new();
        for step in &chain {
            let number = arriving / (step.leaving + growth);
            arriving = step.onwards * number;
            numbers.push(number);
        }
        let sum: f64 = numbers.iter().sum();
        for number in &mut numbers {
            *number *= total / sum;
        }
        let fastest = chain.iter().map(|step| step.leaving).fold(0.0, f64::max);
        Self {
            chain,
            births,
            fastest,
            numbers,
        }
    }

    /// Goes on by so much warmth, °C·d, in steps that are short enough.
    pub fn advance(&mut self, degree_days: f64) {
        self.advance_in(degree_days, self.steps(degree_days));
    }

    /// Steps that keep the fastest rate times a step short enough; none without warmth.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
    fn steps(&self, degree_days: f64) -> u16 {
        (degree_days * self.fastest / LONGEST_STEP).ceil() as u16
    }

    /// Goes on by so much warmth in that many steps.
    ///
    /// The system is linear and the same all through the day, for which the classical Runge-Kutta step of fourth order is the
    /// exponential series up to its fourth power: `x + hAx + (hA)²x/2 + (hA)³x/6 + (hA)⁴x/24` (exact).
    pub fn advance_in(&mut self, degree_days: f64, steps: u16) {
        let step = degree_days / f64::from(steps.max(1));
        let mut term = self.numbers.clone();
        for _ in 0..steps {
            term.clone_from(&self.numbers);
            for power in [1.0, 2.0, 3.0, 4.0] {
                // `factor` times the change that a term brings is the next.
                let factor = step / power;
                let mut arriving = self.births * term.last().copied().unwrap_or(0.0);
                for ((term, number), step) in term.iter_mut().zip(&mut self.numbers).zip(&self.chain) {
                    let before = *term;
                    *term = factor * (arriving - step.leaving * before);
                    *number += *term;
                    arriving = step.onwards * before;
                }
            }
        }
    }

    /// The numbers of all sub-stages, from the youngest eggs on.
    #[must_use]
    pub fn numbers(&self) -> &[f64] {
        &self.numbers
    }

    /// Puts other numbers in their place.
    pub fn put(&mut self, numbers: &[f64]) {
        for (number, other) in self.numbers.iter_mut().zip(numbers) {
            *number = *other;
        }
    }

    /// Takes away what a treatment kills.
    pub fn treat(&mut self, kills: &Kills) {
        for (number, step) in self.numbers.iter_mut().zip(&self.chain) {
            *number *= 1.0 - kills.of(step.stage);
        }
    }

    /// How many there are of each stage.
    #[must_use]
    pub fn by_stage(&self) -> ByStage {
        let of = |stage| {
            let numbers = self.numbers.iter().zip(&self.chain);
            numbers.map(|(number, step)| if step.stage == stage { *number } else { 0.0 }).sum()
        };
        [of(LifeStage::Egg), of(LifeStage::Young), of(LifeStage::Pupa), of(LifeStage::Adult)]
    }

    /// How many there are in all.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.numbers.iter().sum()
    }

    /// What each animal of each sub-stage is worth at the end: one.
    #[must_use]
    pub fn worth_at_the_end(&self) -> Vec<f64> {
        vec![1.0; self.chain.len()]
    }

    /// What each animal of each sub-stage becomes in all, without a treatment, once so much warmth, °C·d, has come: the same steps
    /// backwards, from `worth` at the end of it (exact).
    pub fn worth_before(&self, worth: &mut [f64], degree_days: f64) {
        let steps = self.steps(degree_days);
        let step = degree_days / f64::from(steps.max(1));
        for _ in 0..steps {
            let mut term = worth.to_vec();
            for power in [1.0, 2.0, 3.0, 4.0] {
                let factor = step / power;
                let first = term.first().copied().unwrap_or(0.0);
                let next: Vec<f64> = term.iter().skip(1).copied().chain([0.0]).collect();
                for ((value, step), next) in term.iter_mut().zip(&self.chain).zip(next) {
                    let born = if step.onwards > 0.0 { 0.0 } else { self.births * first };
                    *value = factor * (step.onwards * next + born - step.leaving * *value);
                }
                for (value, change) in worth.iter_mut().zip(&term) {
                    *value += change;
                }
            }
        }
    }

    /// Takes the share that is killed off the worth of each.
    pub fn spared(&self, worth: &mut [f64], kills: &Kills) {
        for (worth, step) in worth.iter_mut().zip(&self.chain) {
            *worth *= 1.0 - kills.of(step.stage);
        }
    }
}
