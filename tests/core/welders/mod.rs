//! Welders and operators: packs, ranges, judgements, dates, the designation.
//!
//! Expected numbers and coverages are those of the codes' tables as the packs cite them clause by clause:
//! ISO 9606-1:2012 tables 3 to 12 (from memory), ASME BPVC IX QW-452.1(b) and QW-452.3 (2010 edition, 2011
//! addenda, read), QW-461.9 (secondary), AWS D1.1:2020 table 6.10 (read) and 6.11 (secondary), ISO 14732
//! 6.2 and 6.3 (read). Values inside, on and outside a limit are own arithmetic from those tables.

mod coverage;
mod dates;
mod fixture;
mod sizes;
mod unknown;
