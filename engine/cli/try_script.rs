//! A script that is checked: tried on the fixed landings and lies, and told beside the built-in rules.

use serde::Serialize;

use costcard::files::{Faults, Source, listed};
use costcard::rules::script::trial::{self, Tried, TriedLie};
use costcard::rules::script::{Function, Script};
use costcard::show::page::Page;
use costcard::show::script as show;

use super::rules;

/// What a sound script does.
#[derive(Debug)]
pub struct Tryout {
    defined: Vec<Function>,
    landings: Option<Vec<Tried>>,
    lies: Option<Vec<TriedLie>>,
}

/// A landing as other programs read it.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct LandingDocument {
    speed_mph: f64,
    descent_deg: f64,
    spin_rpm: f64,
    firmness: f64,
    usual_run_yd: f64,
    run_yd: f64,
}

/// Reads a script and tries all it defines.
pub fn tryout(source: &Source) -> Result<Tryout, Faults> {
    let script = Script::read(source, &rules::to_stderr())?;
    trial::sound(&script)?;
    let defines = |function| script.defined().contains(&function);
    Ok(Tryout {
        landings: defines(Function::Hold)
            .then(|| trial::landings(&script))
            .transpose()?,
        lies: defines(Function::LieEffect)
            .then(|| trial::lies(&script))
            .transpose()?,
        defined: script.defined().to_vec(),
    })
}

impl Tryout {
    /// What it is, in a line.
    pub fn line(&self) -> String {
        let written: Vec<String> = self.defined.iter().map(|one| one.written()).collect();
        let written: Vec<&str> = written.iter().map(String::as_str).collect();
        format!("script, defines {}", listed(&written, "and"))
    }

    /// Its tables.
    pub fn tables(&self, page: Page) -> String {
        let mut out = String::new();
        if let Some(landings) = &self.landings {
            out += "\n";
            out += &show::landings(landings, page);
        }
        if let Some(lies) = &self.lies {
            out += "\n";
            out += &show::lies(lies, page);
        }
        out
    }

    /// Its landings as other programs read them; none where it leaves the run as it is.
    pub fn landings(&self) -> Option<Vec<LandingDocument>> {
        let landings = self.landings.as_ref()?;
        // Adding nothing turns a negative zero into a plain one.
        let document = |one: &Tried| LandingDocument {
            speed_mph: one.speed.mph(),
            descent_deg: one.descent.deg(),
            spin_rpm: one.spin.rpm(),
            firmness: one.firmness.value(),
            usual_run_yd: one.usual.along.yd() + 0.0,
            run_yd: one.run.along.yd() + 0.0,
        };
        Some(landings.iter().map(document).collect())
    }
}
