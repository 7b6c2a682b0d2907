//! Our PNG against the `png` crate: what the one writes the other reads, and what is damaged is refused.

use dappledome::base::seed::Seed;
use dappledome::keep::open::{OpenFault, Opened, open};
use dappledome::picture::png::{self as ours, RECIPE_KEYWORD, SEED_KEYWORD};
use dappledome::picture::{Light, Pixmap, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Recipe, demo, file};
use png::text_metadata::ITXtChunk;
use png::{BitDepth, ColorType, Decoder, Encoder, Filter, Info};
use proptest::prelude::*;
use std::io::Cursor;

/// What the crate finds in a picture: what it says of itself, and its pixels as they are kept.
fn read(picture: &[u8]) -> Result<(Info<'static>, Vec<u8>), png::DecodingError> {
    let mut reader = Decoder::new(Cursor::new(picture)).read_info()?;
    let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
    let frame = reader.next_frame(&mut pixels)?;
    pixels.truncate(frame.buffer_size());
    reader.finish()?;
    Ok((reader.info().clone(), pixels))
}

/// The international texts of a picture, by the crate.
fn texts(info: &Info) -> Vec<(String, String)> {
    let texts = info.utf8_text.iter();
    texts.map(|text| (text.keyword.clone(), text.get_text().unwrap())).collect()
}

fn rgb(picture: &Pixmap) -> Vec<u8> {
    picture.rgba.chunks_exact(4).flat_map(|pixel| &pixel[..3]).copied().collect()
}

/// A piece as the page saves it: drawn, with its recipe and its seed inside.
fn saved() -> (Recipe, Pixmap, Vec<u8>) {
    let recipe = Recipe { title: "Été à Zürich – 夏".into(), ..demo::ember_walk() };
    let view = View::usual(Stage::Fused, Light::Day, 96);
    let plan = Plan::new(&recipe).unwrap().plan;
    let picture = Preview::new().picture(&plan, Seed(47), &view);
    let text = file::write(&recipe);
    let written = ours::encode(&picture, &[(RECIPE_KEYWORD, &text), (SEED_KEYWORD, "47")]);
    (recipe, picture, written)
}

#[test]
fn the_crate_reads_a_saved_piece() {
    let (recipe, picture, written) = saved();
    let (info, pixels) = read(&written).unwrap();
    assert_eq!((info.width, info.height), (picture.width, picture.height));
    assert_eq!((info.color_type, info.bit_depth), (ColorType::Rgb, BitDepth::Eight));
    assert!(info.srgb.is_some() && !info.interlaced);
    assert!(pixels == rgb(&picture), "other pixels");
    let [(recipe_keyword, text), (seed_keyword, seed)] = &texts(&info)[..] else { panic!("two texts") };
    assert_eq!((&**recipe_keyword, &**seed_keyword, &**seed), (RECIPE_KEYWORD, SEED_KEYWORD, "47"));
    assert_eq!(file::read(text), Ok(recipe));
}

proptest! {
    #[test]
    fn the_crate_reads_what_ours_writes(
        (width, height, rgb_bytes) in (1u32..20, 1u32..20).prop_flat_map(|(width, height)| {
            let bytes = (width * height * 3) as usize;
            (Just(width), Just(height), proptest::collection::vec(any::<u8>(), bytes))
        }),
        text in any::<String>().prop_filter("a zero ends a text", |text| !text.contains('\0')),
    ) {
        let rgba = rgb_bytes.chunks_exact(3).flat_map(|pixel| [pixel[0], pixel[1], pixel[2], 255]).collect();
        let picture = Pixmap { width, height, rgba };
        let (info, pixels) = read(&ours::encode(&picture, &[(RECIPE_KEYWORD, &text)])).unwrap();
        prop_assert_eq!((info.width, info.height), (width, height));
        prop_assert_eq!(pixels, rgb_bytes);
        prop_assert_eq!(texts(&info), [(RECIPE_KEYWORD.to_owned(), text)]);
    }

    #[test]
    fn any_bytes_are_survived(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let picture = [ours::SIGNATURE, &bytes].concat();
        prop_assert_eq!(ours::text(&picture, RECIPE_KEYWORD), None);
        prop_assert!(open(&picture, Seed(1)).is_err());
    }
}

/// Every kind of picture that the crate writes, of 16 pixels by 5, by a name.
fn kinds() -> Vec<(String, ColorType, BitDepth, Filter)> {
    use BitDepth::{Eight, Four, One, Sixteen, Two};
    let depths: [(ColorType, &[BitDepth]); 5] = [
        (ColorType::Grayscale, &[One, Two, Four, Eight, Sixteen]),
        (ColorType::Indexed, &[One, Two, Four, Eight]),
        (ColorType::Rgb, &[Eight, Sixteen]),
        (ColorType::GrayscaleAlpha, &[Eight, Sixteen]),
        (ColorType::Rgba, &[Eight, Sixteen]),
    ];
    let filters = [Filter::NoFilter, Filter::Sub, Filter::Up, Filter::Avg, Filter::Paeth, Filter::Adaptive];
    let colors =
        depths.into_iter().flat_map(|(color, depths)| depths.iter().map(move |depth| (color, *depth)));
    colors
        .flat_map(|(color, depth)| {
            filters.map(|filter| (format!("{color:?} {depth:?} {filter:?}"), color, depth, filter))
        })
        .collect()
}

/// A picture that the crate writes, with these texts before or behind its pixels.
fn written(color: ColorType, depth: BitDepth, filter: Filter, texts: &[ITXtChunk], behind: bool) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, 16, 5);
    encoder.set_color(color);
    encoder.set_depth(depth);
    encoder.set_filter(filter);
    if color == ColorType::Indexed {
        encoder.set_palette((0..48).collect::<Vec<u8>>());
    }
    encoder.add_text_chunk("Title".into(), "of another program".into()).unwrap();
    encoder.add_ztxt_chunk("Comment".into(), "of another program".into()).unwrap();
    let mut writer = encoder.write_header().unwrap();
    let write_texts =
        |writer: &mut png::Writer<_>| texts.iter().for_each(|text| writer.write_text_chunk(text).unwrap());
    if !behind {
        write_texts(&mut writer);
    }
    let bytes = 5 * 16 * color.samples() * depth as usize / 8;
    // Small indices, for a palette has only so many colors.
    writer.write_image_data(&(0..bytes).map(|at| (at % 2) as u8).collect::<Vec<_>>()).unwrap();
    if behind {
        write_texts(&mut writer);
    }
    writer.finish().unwrap();
    out
}

#[test]
fn ours_reads_texts_of_every_kind_of_picture() {
    let recipe = file::write(&demo::ember_walk());
    let plain = [ITXtChunk::new(RECIPE_KEYWORD, recipe.as_str()), ITXtChunk::new(SEED_KEYWORD, "47")];
    let mut compressed = plain.clone();
    for text in &mut compressed {
        (text.compressed, text.language_tag, text.translated_keyword) =
            (true, "de".into(), "Rezept für Glas".into());
    }
    let piece = Opened::Piece(Box::new(Piece::new(demo::ember_walk(), Seed(47))));
    for (name, color, depth, filter) in kinds() {
        for (texts, behind) in [(&plain, false), (&plain, true), (&compressed, false), (&compressed, true)] {
            let picture = written(color, depth, filter, texts, behind);
            assert_eq!(open(&picture, Seed(1)).as_ref(), Ok(&piece), "{name}, behind: {behind}");
        }
    }
}

#[test]
fn texts_are_put_into_every_kind_of_picture() {
    for (name, color, depth, filter) in kinds() {
        let before = written(color, depth, filter, &[], false);
        let after = ours::with_texts(&before, &[(SEED_KEYWORD, "41"), (RECIPE_KEYWORD, "été")]).unwrap();
        assert_eq!(ours::text(&after, RECIPE_KEYWORD).as_deref(), Some("été"), "{name}");
        let ((info, pixels), (_, pixels_before)) = (read(&after).unwrap(), read(&before).unwrap());
        assert_eq!(pixels, pixels_before, "{name}");
        let found = texts(&info);
        assert_eq!(
            found,
            [(SEED_KEYWORD.into(), "41".into()), (RECIPE_KEYWORD.into(), "été".into())],
            "{name}"
        );
    }
}

/// A small picture with a recipe, and where each of its chunks begins.
fn small() -> (Vec<u8>, Vec<usize>) {
    let text = file::write(&demo::ember_walk());
    let texts = [(RECIPE_KEYWORD, text.as_str()), (SEED_KEYWORD, "47")];
    let picture = ours::encode(&Pixmap::filled(3, 2, [1, 2, 3]), &texts);
    let mut starts = vec![ours::SIGNATURE.len()];
    while let Some(length) = picture[starts[starts.len() - 1]..].first_chunk::<4>() {
        starts.push(starts[starts.len() - 1] + 12 + u32::from_be_bytes(*length) as usize);
    }
    (picture, starts)
}

/// What is said of a picture whose recipe cannot be read.
fn refused(picture: &[u8]) -> bool {
    ours::text(picture, RECIPE_KEYWORD).is_none()
        && open(picture, Seed(1)).is_err_and(|fault| {
            matches!(fault, OpenFault::Faulty(notice) if notice.what == "A picture without a recipe in it.")
        })
}

#[test]
fn a_picture_cut_short_has_no_recipe_until_all_of_it_is_there() {
    let (picture, starts) = small();
    // IHDR, sRGB, the recipe, the seed, IDAT, IEND, and the end.
    let [_, _, _, behind_recipe, ..] = starts[..] else { panic!("{starts:?}") };
    assert_eq!((starts.len(), starts[6]), (7, picture.len()));
    for length in 0..picture.len() {
        let cut = &picture[..length];
        if length < behind_recipe {
            assert_eq!(ours::text(cut, RECIPE_KEYWORD), None, "{length} bytes");
            assert!(open(cut, Seed(1)).is_err(), "{length} bytes");
            assert!(length < ours::SIGNATURE.len() || refused(cut), "{length} bytes");
        } else {
            assert!(ours::text(cut, RECIPE_KEYWORD).is_some(), "{length} bytes");
        }
        assert!(read(cut).is_err() || length >= starts[5], "the crate reads {length} bytes");
    }
}

#[test]
fn a_chunk_with_a_wrong_check_is_not_read() {
    let (picture, starts) = small();
    for at in starts[2]..starts[3] {
        let mut changed = picture.clone();
        changed[at] ^= 1;
        assert!(refused(&changed), "byte {at}");
    }
    // What is damaged behind the recipe costs what stands there alone.
    let mut changed = picture.clone();
    changed[starts[4] - 1] ^= 1;
    assert_eq!(ours::text(&changed, SEED_KEYWORD), None);
    let piece = Opened::Piece(Box::new(Piece::new(demo::ember_walk(), Seed(9))));
    assert_eq!(open(&changed, Seed(9)), Ok(piece));
}

#[test]
fn a_wrong_length_is_not_followed() {
    let (picture, starts) = small();
    let recipe = starts[2];
    let right = u32::from_be_bytes(*picture[recipe..].first_chunk().unwrap());
    for length in [
        0,
        1,
        right - 1,
        right + 1,
        right + 12,
        picture.len() as u32,
        i32::MAX as u32,
        u32::MAX - 3,
        u32::MAX,
    ] {
        let mut changed = picture.clone();
        changed[recipe..recipe + 4].copy_from_slice(&length.to_be_bytes());
        assert!(refused(&changed), "a length of {length} for {right}");
        assert!(
            read(&changed).is_err()
                || !texts(&read(&changed).unwrap().0).iter().any(|(k, _)| k == RECIPE_KEYWORD)
        );
    }
}

#[test]
fn nothing_is_put_into_what_is_no_picture() {
    let (picture, starts) = small();
    let mut damaged = picture.clone();
    damaged[starts[0] + 8] ^= 1;
    for bytes in [&b"GIF89a"[..], &picture[..20], &picture[8..], &damaged] {
        assert_eq!(ours::with_texts(bytes, &[(SEED_KEYWORD, "41")]), None);
    }
}
