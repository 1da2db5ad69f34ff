//! Checks of numeric variables, of the station and of the readings, through whole cases.

mod advice;
mod boundaries;
mod filler_care;
mod heat;
mod instruments;
mod mutation;
mod outcomes;
mod preheat_and_interpass;
mod probe;
mod properties;
mod station;
mod words;
