//! JSON Schema of the files, from what their readers ask of them. Editors complete and check by it.

use serde_json::{Map, Value, json};

use super::toml::{ANY, Form, Outline, PARTS, Place};

/// The version of JSON Schema.
const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";

impl Outline {
    /// The schema of such files, for JSON Schema draft 2020-12. It knows names, kinds and ranges of values; what only
    /// several values together show, the program tells.
    #[must_use]
    pub fn schema(&self, title: &str, description: &str) -> Value {
        let mut schema = Map::new();
        schema.insert("$schema".to_owned(), json!(DRAFT));
        schema.insert("title".to_owned(), json!(title));
        schema.insert("description".to_owned(), json!(description));
        if let Some(place) = self.places.get("") {
            self.table("", place, &mut schema);
        }
        Value::Object(schema)
    }

    /// What may stand at a path.
    fn value(&self, path: &str) -> Value {
        let Some(place) = self
            .places
            .get(path)
            .filter(|place| !place.forms.is_empty())
        else {
            return json!({});
        };
        let mut ways: Vec<Map<String, Value>> = (place.forms.iter())
            .map(|form| self.form(path, place, form))
            .collect();
        let mut schema = match ways.len() {
            1 => ways.remove(0),
            _ => Map::from_iter([("anyOf".to_owned(), json!(ways))]),
        };
        if let Some(says) = &place.says {
            schema.insert("description".to_owned(), json!(says));
        }
        if let Some(example) = place.example.and_then(parsed) {
            schema.insert("examples".to_owned(), json!([example]));
        }
        Value::Object(schema)
    }

    fn form(&self, path: &str, place: &Place, form: &Form) -> Map<String, Value> {
        let made = match form {
            Form::Number(low, high) => {
                json!({ "type": "number", "minimum": bound(*low), "maximum": bound(*high) })
            }
            Form::Whole(low, high) => json!({ "type": "integer", "minimum": low, "maximum": high }),
            Form::Text => json!({ "type": "string", "pattern": "\\S" }),
            Form::Words(words) => json!({ "enum": words }),
            Form::YesNo => json!({ "type": "boolean" }),
            Form::Point(limit) => {
                let number =
                    json!({ "type": "number", "minimum": bound(-limit), "maximum": bound(*limit) });
                json!({ "type": "array", "prefixItems": [number, number], "items": false, "minItems": 2 })
            }
            Form::List => {
                json!({ "type": "array", "items": self.value(&format!("{path}{PARTS}")) })
            }
            Form::Table => {
                let mut table = Map::new();
                self.table(path, place, &mut table);
                Value::Object(table)
            }
        };
        match made {
            Value::Object(made) => made,
            _ => Map::new(),
        }
    }

    fn table(&self, path: &str, place: &Place, schema: &mut Map<String, Value>) {
        schema.insert("type".to_owned(), json!("object"));
        let Some(keys) = &place.keys else {
            schema.insert(
                "additionalProperties".to_owned(),
                self.value(&format!("{path}/{ANY}")),
            );
            return;
        };
        let property = |key: &&str| ((*key).to_owned(), self.value(&format!("{path}/{key}")));
        let properties: Map<String, Value> = keys.iter().map(property).collect();
        schema.insert("properties".to_owned(), Value::Object(properties));
        let required = place.required();
        if !required.is_empty() {
            schema.insert("required".to_owned(), json!(required));
        }
        schema.insert("additionalProperties".to_owned(), json!(false));
    }
}

/// A whole number without its point, as people write it.
fn bound(number: f64) -> Value {
    if number.fract() == 0.0 && number.abs() < 1e15 {
        json!(number as i64)
    } else {
        json!(number)
    }
}

/// An example as JSON; none where it leaves something out.
fn parsed(example: &str) -> Option<Value> {
    let mut file: Map<String, Value> = ::toml::from_str(&format!("example = {example}")).ok()?;
    file.remove("example")
}
