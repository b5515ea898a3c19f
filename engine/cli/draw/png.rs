//! SVG to PNG.

use std::sync::Arc;

use anyhow::{Context, anyhow};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};

/// Pixels of the image for each of the picture, across and along: sharp on paper up to some 20 cm wide.
const SCALE: f32 = 2.0;

/// A picture as PNG.
pub struct Png {
    pub bytes: Vec<u8>,
    pub width_px: u32,
    pub height_px: u32,
}

/// The fonts of this machine.
pub fn fonts() -> Database {
    let mut fonts = Database::new();
    fonts.load_system_fonts();
    // What a picture asks for at last, whichever font there is.
    let named = |wanted: &str| {
        let mut families = fonts
            .faces()
            .flat_map(|face| face.families.iter().map(|(name, _)| name));
        families.find(|name| name.contains(wanted)).cloned()
    };
    if let Some(family) = named("Sans").or_else(|| named("")) {
        fonts.set_sans_serif_family(family.clone());
        fonts.set_serif_family(family);
    }
    fonts
}

/// Renders a picture with some fonts.
pub fn rendered(svg: &str, fonts: Database) -> anyhow::Result<Png> {
    if fonts.is_empty() {
        return Err(anyhow!(
            "there is no font on this machine, so a PNG would have no words: install one, such as the package \
             fonts-dejavu-core, or write an SVG, whose words are shown by the reader's own fonts"
        ));
    }
    let options = Options {
        fontdb: Arc::new(fonts),
        ..Options::default()
    };
    let tree = Tree::from_str(svg, &options).context("the picture cannot be rendered")?;
    let size = tree.size().to_int_size().scale_by(SCALE);
    let pixels = size.and_then(|size| Pixmap::new(size.width(), size.height()));
    let mut pixels = pixels.context("the picture is too large for a PNG")?;
    resvg::render(
        &tree,
        Transform::from_scale(SCALE, SCALE),
        &mut pixels.as_mut(),
    );
    Ok(Png {
        width_px: pixels.width(),
        height_px: pixels.height(),
        bytes: pixels
            .encode_png()
            .context("the picture cannot be packed as PNG")?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_machine_without_fonts_is_told() {
        let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>";
        let told = rendered(svg, Database::new())
            .err()
            .map(|error| error.to_string());
        assert!(told.is_some_and(|told| told.contains("there is no font on this machine")));
    }
}
