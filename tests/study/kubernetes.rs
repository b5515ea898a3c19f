//! The manifest of an indexed job, against the schema that Kubernetes publishes. It is not run here: there is no cluster.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

fn text(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests")
        .join(name);
    fs::read_to_string(path).expect("a file")
}

fn manifest() -> Value {
    serde_saphyr::from_str(&text("recipes/kubernetes-job.yaml")).expect("YAML")
}

fn faults(manifest: &Value) -> Vec<String> {
    let schema = text("data/kubernetes/job-batch-v1.schema.json");
    let schema: Value = serde_json::from_str(&schema).expect("JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("a schema");
    let faults = validator.iter_errors(manifest);
    faults
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect()
}

#[test]
fn the_manifest_is_a_job() {
    let manifest = manifest();
    assert_eq!(faults(&manifest), Vec::<String>::new());
    let spec = &manifest["spec"];
    assert_eq!(spec["completionMode"], "Indexed");
    // The number of parts stands twice, and is one.
    let container = &spec["template"]["spec"]["containers"][0];
    let parts = &container["env"][0];
    assert_eq!(parts["name"], "COSTCARD_PARTS");
    assert_eq!(parts["value"], spec["completions"].to_string());
}

#[test]
fn slips_in_it_are_told() {
    for (path, value) in [
        ("/spec/completions", json!("four")),
        ("/spec/completionMode", json!(4)),
        ("/spec/template/spec/containers", json!({})),
        ("/spec/template/spec/containers/0/env/0/value", json!(4)),
    ] {
        let mut slipped = manifest();
        *slipped.pointer_mut(path).expect(path) = value;
        assert_ne!(faults(&slipped), Vec::<String>::new(), "{path}");
    }
    let mut unknown = manifest();
    unknown["spec"]["completionsMode"] = json!("Indexed");
    assert_ne!(faults(&unknown), Vec::<String>::new());
}
