//! The tiles: how much was sifted, on what, which color was seen and which is reckoned.

use super::state::TileBench;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::color_pair::ColorPair;
use crate::controls::number::Number;
use crate::fields::types::Unit;
use crate::state::tile_draft::{MOST_TILES, TileDraft};
use crate::words;
use dappledome::base::units::Mm;
use dappledome::color::difference::from_lab;
use dappledome::color::srgb::{encode, pull_in};
use dappledome::color::typed;
use dappledome::glass::tile::{Over, Sifted};
use dappledome::optics::test_tile::Color;
use dappledome::recipe::limits::{Limit, TILE_AREA, TILE_DEPTH, TILE_GRAMS};
use leptos::prelude::*;

/// A tile of this many mm is proposed beside those that there are.
const NEXT_DEPTH: f64 = 1.5;

/// All of them, and the word for one more.
pub fn tile_rows(bench: TileBench, said: RwSignal<Option<String>>) -> AnyView {
    let places = move || 0..bench.draft.with(|draft| draft.tiles.len());
    let more = move || bench.draft.with(|draft| draft.tiles.len() < MOST_TILES);
    let add = move |_| bench.draft.update(|draft| draft.tiles.push(TileDraft::of(NEXT_DEPTH)));
    view! {
        <ul class="tile-rows" role="list">
            <For each=places key=|at| *at let:at>
                {tile_row(bench, at, said)}
            </For>
        </ul>
        <Show when=more>
            <button class="word" on:click=add>{words::ADD_TILE}</button>
        </Show>
    }
    .into_any()
}

fn tile_row(bench: TileBench, at: usize, said: RwSignal<Option<String>>) -> AnyView {
    let of = move |look: fn(&TileDraft) -> bool| {
        Signal::derive(move || bench.draft.with(|draft| draft.tiles.get(at).is_some_and(look)))
    };
    let turn = move |change: fn(&mut TileDraft)| Callback::new(move |()| bench.change(at, change));
    let leave_out = move |_| {
        bench.draft.update(|draft| {
            if draft.tiles.len() > 1 {
                draft.tiles.remove(at);
            }
        });
    };
    let weighed = of(|tile| matches!(tile.sifted, Sifted::Weighed { .. }));
    let photographed = Memo::new(move |_| bench.draft.with(|draft| draft.photo.is_some()));
    let several = move || bench.draft.with(|draft| draft.tiles.len() > 1);
    view! {
        <li class="tile-row">
            <b>{words::tile(at)}</b>
            <Choice label=words::HOW_SIFTED>
                <ChoiceOption
                    word=words::IN_MM
                    chosen=Signal::derive(move || !weighed.get())
                    choose=turn(|tile| tile.sifted = Sifted::Loose(Mm(TILE_DEPTH.usual)))
                />
                <ChoiceOption
                    word=words::IN_GRAMS
                    chosen=weighed
                    choose=turn(|tile| {
                        tile.sifted = Sifted::Weighed { grams: TILE_GRAMS.usual, area: TILE_AREA.usual };
                    })
                />
            </Choice>
            <span class="tile-sifted">{move || amounts(bench, at, weighed.get(), said)}</span>
            <Choice label=words::LIES_OVER>
                <ChoiceOption
                    word=words::OVER_WHITE
                    chosen=of(|tile| tile.over == Over::White)
                    choose=turn(|tile| tile.over = Over::White)
                />
                <ChoiceOption
                    word=words::OVER_BLACK
                    chosen=of(|tile| tile.over == Over::Black)
                    choose=turn(|tile| tile.over = Over::Black)
                />
            </Choice>
            {move || if photographed.get() { read_off(bench, at) } else { color_field(bench, at) }}
            {move || seen_and_reckoned(bench, at)}
            <Show when=several>
                <button class="word" aria-label=words::leave_tile_out(at) on:click=leave_out>{words::LEAVE_OUT}</button>
            </Show>
        </li>
    }
    .into_any()
}

/// Depth, or grams and the area they lay on.
fn amounts(bench: TileBench, at: usize, weighed: bool, said: RwSignal<Option<String>>) -> AnyView {
    let number =
        move |name: String, unit, limit: Limit, get: fn(Sifted) -> Option<f64>, set: fn(&mut Sifted, f64)| {
            let value =
                move || bench.draft.with(|draft| draft.tiles.get(at).and_then(|tile| get(tile.sifted)));
            let change = move |value| bench.change(at, |tile| set(&mut tile.sifted, value));
            view! {
                <Number
                    name=Signal::stored(name)
                    unit
                    limit
                    value=Signal::derive(value)
                    yours=Signal::stored(true)
                    set=Callback::new(change)
                    usual=Callback::new(move |()| change(limit.usual))
                    said
                />
            }
            .into_any()
        };
    if !weighed {
        return number(
            words::depth_of_tile(at),
            Unit::Mm,
            TILE_DEPTH,
            |sifted| if let Sifted::Loose(depth) = sifted { Some(depth.0) } else { None },
            |sifted, to| *sifted = Sifted::Loose(Mm(to)),
        );
    }
    let grams = number(
        words::grams_of_tile(at),
        Unit::Grams,
        TILE_GRAMS,
        |sifted| if let Sifted::Weighed { grams, .. } = sifted { Some(grams) } else { None },
        |sifted, to| {
            if let Sifted::Weighed { grams, .. } = sifted {
                *grams = to;
            }
        },
    );
    let area = number(
        words::area_of_tile(at),
        Unit::Number,
        TILE_AREA,
        |sifted| if let Sifted::Weighed { area, .. } = sifted { Some(area) } else { None },
        |sifted, to| {
            if let Sifted::Weighed { area, .. } = sifted {
                *area = to;
            }
        },
    );
    view! {
        {grams}
        " "
        {words::ON_AREA}
        " "
        {area}
        " cm²"
    }
    .into_any()
}

/// The color as it is typed; what cannot be read says how colors are written.
fn color_field(bench: TileBench, at: usize) -> AnyView {
    let text = move || {
        bench.draft.with(|draft| draft.tiles.get(at).map(|tile| tile.color.clone()).unwrap_or_default())
    };
    let wrong = Memo::new(move |_| {
        let text = text();
        if text.trim().is_empty() { None } else { typed::read(&text).err().map(|why| why.to_string()) }
    });
    let take =
        move |event: web_sys::Event| bench.change(at, |tile| tile.type_color(event_target_value(&event)));
    view! {
        <span class="tile-color">
            <input
                class="typed"
                aria-label=words::color_of_tile(at)
                aria-invalid=move || wrong.read().is_some().to_string()
                placeholder="#9A5F4C"
                prop:value=text
                on:change=take
            />
            <small role="status">{move || wrong.get()}</small>
        </span>
    }
    .into_any()
}

/// How far the pixels of a photographed tile lie apart, or why it tells no color.
fn read_off(bench: TileBench, at: usize) -> AnyView {
    let read = move || bench.on_photo.with(|shown| shown.as_ref()?.tiles.get(at).cloned().flatten());
    let text = move || match read()? {
        Ok(reading) if reading.brighter => Some(words::BRIGHTER_THAN_WHITE.to_owned()),
        Ok(reading) => Some(words::spread(reading.spread)),
        Err(notice) => Some(format!("{} {}", notice.what, notice.remedy)),
    };
    view! {
        <span class="tile-color">
            <small role="status">{text}</small>
        </span>
    }
    .into_any()
}

/// The color that was seen beside the one that the fitted glass would have, and how far they are apart.
fn seen_and_reckoned(bench: TileBench, at: usize) -> Option<AnyView> {
    let read = bench.tiles.read();
    let place = read.iter().position(|(tile, _)| *tile == at)?;
    let fitted = bench.fitted.read();
    let Some(Ok(fitted)) = &*fitted else { return None };
    let (seen, reckoned, apart) =
        (read[place].1.color, *fitted.colors.get(place)?, *fitted.apart.get(place)?);
    let color = |lab| -> Color { encode(pull_in(from_lab(lab))) };
    let colors = Some((color(seen), color(reckoned)));
    Some(
        view! {
            <span class="tile-fit">
                <ColorPair colors=Signal::stored(colors) />
                {words::apart_by(apart)}
            </span>
        }
        .into_any(),
    )
}
