//! The same decision by one indexed query per request: what a service without a rulebook in memory would do.
//!
//! The limits of the demo's procedures stand in plain tables without row-level security, beside those of 20,000
//! others, and one prepared statement looks up the procedure by its key and compares every stated value and
//! choice. It answers with the verdict and the names of what is outside, without words, figures or cautions: less
//! than the check answers.

use arcbounds::{
    check::{NUMERIC, Setup, Variable, record::Procedure},
    database::{
        self,
        private::{PrivatePostgres, roles},
    },
    http,
    quantity::{Amount, Quantity, Range},
    trade::Coded,
};
use axum::{Json, Router, body::Bytes, extract::State, routing::post};
use serde_json::{Value, json};
use sqlx::{Connection, PgConnection, PgPool, Row};

use crate::{Failure, furnish::DATABASE, scenario, serve};

const TABLES: &str = "
    create schema plain;
    create table plain.procedure (
        number text, revision integer, process text, joints text[], positions text[], consumables text[],
        polarities text[], gases text[], thinnest float8, thickest float8, primary key (number, revision));
    create table plain.lim (
        number text, revision integer, run_class text, variable text, low float8, high float8,
        primary key (number, revision, run_class, variable));
    grant usage on schema plain to public;
    grant select on all tables in schema plain to public;
";

const OTHERS: &str = "
    insert into plain.procedure select number || '-' || n, revision, process, joints, positions, consumables,
        polarities, gases, thinnest, thickest from plain.procedure, generate_series(1, 5000) n;
    insert into plain.lim select number || '-' || n, revision, run_class, variable, low, high
        from plain.lim, generate_series(1, 5000) n;
    analyze;
";

const DECIDE: &str = "
    select p.process = $3 and $4 = any(p.joints) and $5 && p.positions and $6 = any(p.consumables)
        and $7 = any(p.polarities) and $8 = any(p.gases) and p.thinnest <= $9 and $10 <= p.thickest as fits,
        coalesce((select array_agg(s.variable) from unnest($11::text[], $12::float8[]) as s(variable, value)
            join plain.lim l on l.number = p.number and l.revision = p.revision and l.run_class = $13
                and l.variable = s.variable
            where s.value < l.low or l.high < s.value), '{}') as outside,
        (select count(*) from plain.lim l where l.number = p.number and l.revision = p.revision
            and l.run_class = $13 and not l.variable = any($11)) as missing
    from plain.procedure p where p.number = $1 and p.revision = $2";

/// A service of that kind, behind the same layers.
pub async fn service(postgres: &PrivatePostgres) -> Result<String, Failure> {
    let mut db = PgConnection::connect(&postgres.url(DATABASE, "postgres")).await?;
    sqlx::raw_sql(TABLES).execute(&mut db).await?;
    for procedure in scenario::book().procedures.all() {
        insert(&mut db, procedure).await?;
    }
    sqlx::raw_sql(OTHERS).execute(&mut db).await?;
    db.close().await?;
    let pool = database::open(&postgres.url(DATABASE, roles::APP), 4).await?;
    let routes = Router::new().route("/decision", post(decide)).with_state(pool);
    serve(http::layered(routes)).await
}

async fn insert(db: &mut PgConnection, procedure: &Procedure) -> sqlx::Result<()> {
    let revision = i32::try_from(procedure.revision).unwrap_or(i32::MAX);
    let thickness = procedure.thickness.as_ref();
    sqlx::query("insert into plain.procedure values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)")
        .bind(&procedure.number)
        .bind(revision)
        .bind(procedure.process.code())
        .bind(codes(&procedure.joints))
        .bind(codes(&procedure.positions))
        .bind(&procedure.consumables)
        .bind(codes(&procedure.polarities))
        .bind(procedure.gas.as_ref().map(|gas| codes(&gas.groups)).unwrap_or_default())
        .bind(thickness.and_then(Range::min).map(Quantity::canonical))
        .bind(thickness.and_then(Range::max).map(Quantity::canonical))
        .execute(&mut *db)
        .await?;
    for run in &procedure.runs {
        for variable in NUMERIC {
            let Some(range) = run.ranges.amounts(*variable) else { continue };
            for class in &run.classes {
                sqlx::query("insert into plain.lim values ($1, $2, $3, $4, $5, $6)")
                    .bind(&procedure.number)
                    .bind(revision)
                    .bind(class.code())
                    .bind(variable.code())
                    .bind(range.min.map_or(f64::NEG_INFINITY, Amount::canonical))
                    .bind(range.max.map_or(f64::INFINITY, Amount::canonical))
                    .execute(&mut *db)
                    .await?;
            }
        }
    }
    Ok(())
}

fn codes<T: Coded>(values: &[T]) -> Vec<&'static str> {
    values.iter().map(|value| value.code()).collect()
}

/// What the query compares.
fn stated(setup: &Setup) -> Vec<(&'static str, f64)> {
    use arcbounds::check::Variable::{
        ArcEnergy, Current, GasFlow, HeatInput, Preheat, StickOut, TravelAngle, TravelSpeed,
        Voltage, WireFeed, WorkAngle,
    };
    let settings = &setup.settings;
    let mut all: Vec<(Variable, f64)> = Vec::new();
    all.extend(settings.current.map(|given| (Current, given.span.low().canonical())));
    all.extend(settings.voltage.map(|given| (Voltage, given.span.low().canonical())));
    all.extend(settings.wire_feed.map(|given| (WireFeed, given.span.low().canonical())));
    all.extend(settings.travel_speed.map(|given| (TravelSpeed, given.span.low().canonical())));
    all.extend(settings.stick_out.map(|given| (StickOut, given.span.low().canonical())));
    all.extend(settings.travel_angle.map(|given| (TravelAngle, given.span.low().canonical())));
    all.extend(settings.work_angle.map(|given| (WorkAngle, given.span.low().canonical())));
    all.extend(settings.preheat.map(|given| (Preheat, given.span.low().canonical())));
    all.extend(settings.gas_flow.map(|given| (GasFlow, given.span.low().canonical())));
    let product = |name| all.iter().find(|(known, _)| *known == name).map(|(_, value)| *value);
    if let (Some(amperes), Some(volts), Some(speed)) =
        (product(Current), product(Voltage), product(TravelSpeed))
    {
        // Millimetres a minute, so kilojoules a millimetre.
        let energy = amperes * volts * 60.0 / speed / 1000.0;
        all.extend([(ArcEnergy, energy), (HeatInput, 0.8 * energy)]);
    }
    all.into_iter().map(|(variable, value)| (variable.code(), value)).collect()
}

async fn decide(State(pool): State<PgPool>, body: Bytes) -> Result<Json<Value>, String> {
    let setup = scenario::read_setup(&body);
    let job = &setup.job;
    let thickness = || job.base_metals.iter().filter_map(|part| part.thickness);
    let positions =
        job.narrowed_position().map(|claim| codes(&claim.positions().collect::<Vec<_>>()));
    let (variables, values): (Vec<_>, Vec<_>) = stated(&setup).into_iter().unzip();
    let named = setup.procedure.as_ref();
    let row = sqlx::query(DECIDE)
        .bind(named.map(|named| named.number.as_str()))
        .bind(named.and_then(|named| named.revision).and_then(|one| i32::try_from(one).ok()))
        .bind(setup.process.map(Coded::code))
        .bind(job.joint.map(Coded::code))
        .bind(positions.unwrap_or_default())
        .bind(setup.filler.consumable.as_deref())
        .bind(setup.filler.polarity.map(Coded::code))
        .bind(setup.filler.gas.and_then(|gas| gas.group()).map(Coded::code))
        .bind(thickness().map(Quantity::canonical).reduce(f64::min))
        .bind(thickness().map(Quantity::canonical).reduce(f64::max))
        .bind(variables)
        .bind(values)
        .bind(job.run_class.map(Coded::code))
        .fetch_one(&pool)
        .await
        .map_err(|error| error.to_string())?;
    let outside: Vec<String> = row.get("outside");
    let (fits, missing): (Option<bool>, i64) = (row.get("fits"), row.get("missing"));
    let allowed = fits == Some(true) && outside.is_empty() && missing == 0;
    Ok(Json(json!({ "allowed": allowed, "fits": fits, "outside": outside, "missing": missing })))
}
