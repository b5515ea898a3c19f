//! Hashes of content: SHA-256, as everybody can work out again.

use std::fmt::Write;

use sha2::{Digest, Sha256};

/// How many digits of a hash stand in the tables: enough that two inputs of a study never share them.
const SHOWN: usize = 16;

/// The hash of a content, in hexadecimal.
pub(super) fn of(content: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(content) {
        // Writing into a text does not fail.
        let _ = write!(text, "{byte:02x}");
    }
    text
}

/// The hash of a file's content and of what it names: the file's own where it names nothing, so that `sha256sum` gives
/// it too; else that of the lines that `sha256sum` prints of them all, the file first.
pub(super) fn of_files(files: &[(String, Vec<u8>)]) -> String {
    match files {
        [(_, content)] => of(content),
        all => {
            let line = |(name, content): &(String, Vec<u8>)| format!("{}  {name}\n", of(content));
            of(all.iter().map(line).collect::<String>().as_bytes())
        }
    }
}

/// The digits of a hash that stand in the tables.
pub(super) fn shown(hash: &str) -> &str {
    hash.get(..SHOWN).unwrap_or(hash)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_names_nothing_has_the_hash_of_its_bytes() {
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(of(b"abc"), abc);
        assert_eq!(of_files(&[("a".to_owned(), b"abc".to_vec())]), abc);
        assert_eq!(shown(abc), "ba7816bf8f01cfea");
        let two = ["a", "b"].map(|name| (name.to_owned(), b"abc".to_vec()));
        assert_eq!(
            of_files(&two),
            of(format!("{abc}  a\n{abc}  b\n").as_bytes())
        );
    }
}
