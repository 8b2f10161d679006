//! The pictures as SVG: each is drawn at phone and desk width, in light and dark, and left in the target folder to be looked at.

mod kit;

use std::fs;
use std::path::PathBuf;

use hearthload_page::charts::{Theme, View, svg};

fn folder() -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("charts");
    fs::create_dir_all(&folder).expect("a folder for the pictures");
    folder
}

#[test]
fn every_picture_is_drawn_at_every_width_and_in_both_themes() {
    let answer = kit::answer();
    for picture in kit::pictures(&answer) {
        for width_px in [292.0, 362.0, 842.0, 984.0] {
            for (name, theme) in [("light", Theme::light()), ("dark", Theme::dark())] {
                let view = View { theme, moment_s: Some(20.75 * 3600.0), ..View::wide(width_px) };
                let text = svg(&picture, &view).expect("the SVG backend refuses nothing");
                fs::write(folder().join(format!("{}-{width_px}-{name}.svg", picture.key())), &text).expect("a file");
            }
        }
    }
}
