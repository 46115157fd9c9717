//! Every check that runs both natively and in a browser, and the properties that run natively.

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

mod ahead;
mod almanac;
mod codes;
mod copies;
mod diary;
mod ended;
mod feed_edges;
mod feed_keeping;
mod feed_mixer;
mod feed_need;
mod feed_questions;
mod feed_salt;
mod feed_wordings;
mod field_edges;
mod gone_groups;
mod keeper;
mod keeping;
mod keeping_edges;
mod link_edges;
mod links;
mod measures;
mod pest_days;
mod pest_edges;
mod pest_expected;
mod pest_numbers;
mod pest_plan;
mod pest_programmes;
mod pest_questions;
mod pest_record;
mod pest_scene;
mod pest_shared;
mod pest_signs;
mod published;
mod question_table;
mod questions;
mod risks;
mod round;
mod season_edges;
mod season_records;
mod seasons;
mod sentences;
mod station;
mod stood;
mod typing;
mod water_ahead;
mod water_beliefs;
mod water_edges;
mod water_scene;
mod water_thresholds;
mod working;

#[cfg(not(target_arch = "wasm32"))]
mod faults;
#[cfg(not(target_arch = "wasm32"))]
mod learning;
#[cfg(not(target_arch = "wasm32"))]
mod properties_dose;
#[cfg(not(target_arch = "wasm32"))]
mod properties_joining;
#[cfg(not(target_arch = "wasm32"))]
mod properties_links;
#[cfg(not(target_arch = "wasm32"))]
mod properties_notebook;
#[cfg(not(target_arch = "wasm32"))]
mod properties_pest;
#[cfg(not(target_arch = "wasm32"))]
mod properties_reference;
#[cfg(not(target_arch = "wasm32"))]
mod properties_season;
#[cfg(not(target_arch = "wasm32"))]
mod random_mornings;
