//! The wall between organisations: over HTTP, in SQL as the service's role, and in the catalogue.

use arcbounds::database::{Actor, TenantTx};
use serde_json::{Value, json};
use sqlx::{AssertSqlSafe, Executor};

use crate::{
    behind::{count, etag, key, rows, step},
    support::{Api, documents},
};

/// Tables whose rows are only ever added.
const INSERT_ONLY: &[&str] = &[
    "record_revision",
    "record_withdrawal",
    "procedure_event",
    "qualification_signature",
    "welder_event",
    "consumable_batch_event",
    "rule_signature",
    "signed_rule",
    "rule_signature_withdrawal",
    "audit_entry",
    "kept_check",
];

#[tokio::test]
async fn another_organisation_finds_nothing_of_what_has_a_name() {
    let api = Api::furnished().await;
    let (shop, stranger) = (&api.shop, &api.stranger);
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    let kept = api.post(shop.reader(), "/v1/checks", &keep).await.expect(200);
    let check = format!("/v1/checks/{}", kept["check_id"].as_str().unwrap());
    api.get(shop.reader(), &check).await.expect(200);
    api.get(stranger.reader(), &check).await.problem(404, "not-found");

    for (path, document) in [
        ("/v1/consumables/FCW-1", documents::consumable()),
        ("/v1/procedures/WPS-1", documents::procedure()),
        ("/v1/stations/ST-1", documents::station()),
        ("/v1/work-orders/J-100", documents::work_order()),
        ("/v1/qualifications/PQR-1", documents::qualification()),
    ] {
        let now = etag(&api, path).await;
        api.get(stranger.reader(), path).await.problem(404, "not-found");
        let revision = format!("{path}?revision=1");
        api.get(stranger.reader(), &revision).await.problem(404, "not-found");
        api.put(stranger.author(), path, &now, &document).await.problem(404, "not-found");
        let withdrawal = format!("{path}/withdrawal");
        let key = if path.contains("orders") { stranger.author() } else { stranger.approver() };
        api.withdraw(key, &withdrawal, &now).await.problem(404, "not-found");
        assert_eq!(etag(&api, path).await, now, "{path} is as it was");
    }
    let path = "/v1/procedures/WPS-1";
    api.get(stranger.reader(), &format!("{path}/history")).await.problem(404, "not-found");
    let now = etag(&api, path).await;
    for (last, key, body) in [
        ("submission", stranger.author(), Value::Null),
        ("return", stranger.approver(), json!({ "reason": "x" })),
        ("release", stranger.approver(), json!({})),
        ("support-signature", stranger.approver(), json!({ "statement": "x" })),
    ] {
        let refused = step(&api, key, &format!("{path}/{last}"), &now, &body).await;
        refused.problem(404, "not-found");
    }
    assert_eq!(etag(&api, path).await, now);
}

#[tokio::test]
async fn another_organisation_lists_nothing_and_manages_nobody() {
    let api = Api::furnished().await;
    let (shop, stranger) = (&api.shop, &api.stranger);
    for path in ["consumables", "procedures", "stations", "work-orders", "qualifications"] {
        let path = format!("/v1/{path}");
        assert_ne!(api.get(shop.reader(), &path).await.expect(200)["items"], json!([]), "{path}");
        assert_eq!(
            api.get(stranger.reader(), &path).await.expect(200)["items"],
            json!([]),
            "{path}"
        );
    }
    let (id, secret) = key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    for path in ["/v1/keys", "/v1/people", "/v1/audit?limit=500", "/v1/organisation"] {
        let seen = api.get(stranger.admin(), path).await;
        seen.expect(200);
        for foreign in [id.as_str(), "Shop under test", &shop.organisation.to_string(), "WPS-1"] {
            assert!(!seen.text.contains(foreign), "{foreign} in {path}: {}", seen.text);
        }
    }
    let people = api.get(shop.admin(), "/v1/people").await.expect(200);
    let who = people["items"][0]["person"].as_str().unwrap().to_owned();
    let seen = api.get(stranger.admin(), "/v1/people").await;
    assert!(!seen.text.contains(&who), "{}", seen.text);

    for last in ["rotation", "revocation"] {
        let path = format!("/v1/keys/{id}/{last}");
        api.post(stranger.admin(), &path, &Value::Null).await.problem(404, "not-found");
    }
    api.get(&secret, "/v1/stations").await.expect(200);
    let path = format!("/v1/people/{who}");
    let body = json!({ "name": "Taken over", "roles": ["admin"] });
    api.get(stranger.admin(), &path).await.problem(404, "not-found");
    api.put(stranger.admin(), &path, "\"v1\"", &body).await.problem(404, "not-found");
    let body = json!({ "label": "x", "roles": ["reader"], "person": who });
    let refused = api.post(stranger.admin(), "/v1/keys", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/person"]);
    let body = json!({ "label": "x", "roles": ["station"], "station": documents::STATION });
    let refused = api.post(stranger.admin(), "/v1/keys", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/station"]);
}

#[tokio::test]
async fn another_organisation_is_not_checked_against_these_records() {
    let api = Api::furnished().await;
    let key = api.stranger.reader();
    for path in ["/v1/checks", "/v1/windows"] {
        let refused = api.post(key, path, &documents::setup()).await;
        refused.problem(422, "invalid-fields");
        let mut pointers = refused.pointers();
        pointers.sort();
        let named = ["/filler/consumable", "/procedure", "/station", "/work_order"];
        assert_eq!(pointers, named, "{path}");
    }
    let mut unnamed = documents::setup();
    for pointer in ["/filler/consumable", "/procedure", "/station", "/work_order"] {
        unnamed = documents::with(unnamed, pointer, Value::Null);
    }
    let own = api.post(api.shop.reader(), "/v1/checks", &unnamed).await.expect(200);
    assert_eq!(own["held_to"]["procedure"], documents::PROCEDURE, "{own:#}");
    let answer = api.post(key, "/v1/checks", &unnamed).await.expect(200);
    assert_eq!((answer.get("held_to"), &answer["verdict"]), (None, &json!("not-allowed")));
    assert_eq!((&answer["candidates"], &answer["near_misses"]), (&json!([]), &json!([])));
    // The same codes can be theirs as well, and are other records.
    api.stranger.furnish(&api).await;
    let other = documents::with(documents::station(), "/name", json!("Theirs"));
    let path = "/v1/stations/ST-1";
    let now = api.get(key, path).await;
    api.put(api.stranger.author(), path, now.etag(), &other).await.expect(200);
    let own = api.get(api.shop.reader(), path).await.expect(200);
    assert_eq!((&own["document"]["name"], &own["revision"]), (&json!("First station"), &json!(1)));
}

/// Tables of the schema that hold organisations' rows.
async fn guarded(api: &Api) -> Vec<String> {
    let tables = rows(
        api,
        "select c.relname as name from pg_class c join pg_attribute a on a.attrelid = c.oid
         where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
           and a.attname = 'organisation_id' order by 1",
    )
    .await;
    tables.iter().map(|row| row["name"].as_str().unwrap().to_owned()).collect()
}

/// A furnished database in which every guarded table has rows of the shop.
async fn full() -> Api {
    let api = Api::furnished().await;
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    let call = api.call(reqwest::Method::POST, "/v1/checks").key(api.shop.reader());
    call.header("idempotency-key", "k").json(&keep).send().await.expect(200);
    let pdf = ("application/pdf", documents::PDF);
    api.shop.attach(&api, documents::QUALIFICATION, "report.pdf", pdf).await;
    api.shop.write(&api, "welders", &documents::welder()).await;
    let seen = json!({ "qualification": "Q1", "event": "range-signed", "reason": "Compared" });
    let path = "/v1/welders/W-1";
    let now = etag(&api, path).await;
    step(&api, api.shop.approver(), &format!("{path}/events"), &now, &seen).await.expect(200);
    api.shop.write(&api, "consumable-batches", &documents::batch()).await;
    let opened = json!({ "portion": "P-1", "event": "opened" });
    let path_of_events = format!("/v1/consumable-batches/{}/events", documents::BATCH);
    api.post(api.shop.author(), &path_of_events, &opened).await.expect(201);
    let name = json!({ "name": "Somebody", "retention": "five years" });
    let call = api.call(reqwest::Method::PUT, &format!("{path}/name"));
    call.key(api.shop.author()).if_match("\"v0\"").json(&name).send().await.expect(200);
    api.shop.write(&api, "consumables", &documents::tested_consumable()).await;
    api.shop.write(&api, "procedures", &documents::supported_procedure()).await;
    api.shop.release(&api, documents::SUPPORTED).await;
    let path = "/v1/rule-packs/aws-d1.1-2020-prequalified/signatures";
    let rules = json!({ "rules": ["process"], "copy": "On the shelf" });
    let signed = api.post(api.shop.approver(), path, &rules).await.expect(201);
    let path = format!("{path}/{}/withdrawal", signed["signature"].as_str().unwrap());
    let reason = json!({ "reason": "Another printing" });
    api.post(api.shop.approver(), &path, &reason).await.expect(200);
    let batch = format!("/v1/consumable-batches/{}", documents::BATCH);
    let now = etag(&api, &batch).await;
    api.withdraw(api.shop.approver(), &format!("{batch}/withdrawal"), &now).await.expect(200);
    let own = api.shop.organisation;
    for table in guarded(&api).await {
        let found = format!("select count(*) from {table} where organisation_id = '{own}'");
        assert!(count(&api, &found).await > 0, "{table} has no rows to guard");
    }
    api
}

#[tokio::test]
async fn the_services_role_sees_nothing_without_the_setting() {
    let api = full().await;
    let mut connection = api.state().pool.acquire().await.unwrap();
    let sees_nothing = async |connection: &mut sqlx::PgConnection, when: &str| {
        for table in guarded(&api).await {
            let query = format!("select count(*) from {table}");
            let seen: i64 =
                sqlx::query_scalar(AssertSqlSafe(query)).fetch_one(&mut *connection).await.unwrap();
            assert_eq!(seen, 0, "{table} {when}");
        }
    };
    sees_nothing(&mut connection, "without a setting").await;
    // After a transaction that had it, the setting reads '' and not null.
    for end in ["commit", "rollback"] {
        let set = format!(
            "begin; select set_config('arcbounds.organisation', '{}', true); {end}",
            api.shop.organisation
        );
        connection.execute(AssertSqlSafe(set)).await.unwrap();
        sees_nothing(&mut connection, end).await;
    }
}

#[tokio::test]
async fn with_a_foreign_setting_nothing_is_read_or_written() {
    let api = full().await;
    let (own, foreign) = (api.shop.organisation, api.stranger.organisation);
    let actor = Actor::service(foreign);
    for table in guarded(&api).await {
        let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
        let query = format!("select count(*) from {table} where organisation_id = '{own}'");
        let seen: i64 =
            sqlx::query_scalar(AssertSqlSafe(query)).fetch_one(tx.connection()).await.unwrap();
        assert_eq!(seen, 0, "{table}");
    }
    let changes = [
        format!("update record set version = 99 where organisation_id = '{own}'"),
        "update record set version = 99".to_owned(),
        "update api_key set revoked_at = now() where key_id in (select key_id from api_key)"
            .to_owned(),
        "update procedure_standing set state = 'released'".to_owned(),
        format!("delete from procedure_limit where organisation_id = '{own}'"),
        format!("delete from retry where organisation_id = '{own}'"),
    ];
    // Every row of the shop in the tables that these statements reach for.
    let state = async || {
        let mut all = Vec::new();
        for table in ["record", "api_key", "procedure_standing", "procedure_limit", "retry"] {
            let own =
                format!("select * from {table} where organisation_id = '{own}' order by 1, 2, 3");
            all.extend(rows(&api, &own).await);
        }
        all
    };
    let before = state().await;
    for change in changes {
        let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
        sqlx::query(AssertSqlSafe(change)).execute(tx.connection()).await.unwrap();
        tx.commit().await.unwrap();
    }
    assert_eq!(state().await, before);
    let inserts = [
        "insert into organisation (organisation_id, name, settings) values (gen_random_uuid(), 'x', '{}')"
            .to_owned(),
        format!(
            "insert into record (organisation_id, kind, code, revision, edit, state, version, rule_version)
             values ('{own}', 'station', 'ST-9', 1, 1, 'current', 1, 0)"
        ),
        format!(
            "insert into audit_entry (organisation_id, number, at, action, subject_kind, subject,
                 changes_rules, previous_hash, hash, format)
             values ('{own}', 999, now(), 'x', 'x', 'x', true, '', '', 2)"
        ),
        format!(
            "insert into api_key (organisation_id, key_id, label, roles, secret_hash)
             values ('{own}', gen_random_uuid(), 'x', '{{admin}}', '\\x00')"
        ),
        format!(
            "insert into procedure_event (organisation_id, code, revision, sequence, event, person_id, key_id)
             values ('{own}', 'WPS-1', 1, 9, 'released', gen_random_uuid(), gen_random_uuid())"
        ),
    ];
    for insert in inserts {
        let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
        assert_eq!(refusal(tx.connection(), &insert).await, "42501", "{insert}");
    }
}

/// SQLSTATE with which a statement is refused; `00000` where it is not.
async fn refusal(connection: &mut sqlx::PgConnection, statement: &str) -> String {
    match sqlx::query(AssertSqlSafe(statement)).execute(connection).await {
        Ok(_) => "00000".to_owned(),
        Err(error) => error.as_database_error().unwrap().code().unwrap().into_owned(),
    }
}

#[tokio::test]
async fn every_table_is_behind_the_wall() {
    let api = Api::start().await;
    let tables = rows(
        &api,
        "select c.relname as name, c.relrowsecurity as guarded,
                array(select format('%s %s %s %s', p.polcmd, p.polpermissive,
                                    pg_get_expr(p.polqual, p.polrelid),
                                    pg_get_expr(p.polwithcheck, p.polrelid))
                      from pg_policy p where p.polrelid = c.oid) as policies,
                (select a.attname from pg_index i join pg_attribute a
                   on a.attrelid = c.oid and a.attnum = i.indkey[0]
                 where i.indrelid = c.oid and i.indisprimary) as leading
         from pg_class c
         where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
           and c.relname <> '_sqlx_migrations'
         order by 1",
    )
    .await;
    assert!(tables.len() >= 13, "{tables:#?}");
    for table in &tables {
        assert_eq!(table["guarded"], true, "{table}");
        assert_eq!(table["leading"], "organisation_id", "{table}");
        let own = "(organisation_id = current_organisation())";
        assert_eq!(table["policies"], json!([format!("* t {own} {own}")]), "{table}");
    }
    let names: Vec<_> = tables.iter().map(|table| table["name"].as_str().unwrap()).collect();
    assert_eq!(names, guarded(&api).await, "no table without organisation_id");
    // Other views would run as their owner, and look over the wall.
    let others = "select count(*) from pg_class where relnamespace = 'public'::regnamespace
                  and relkind in ('v', 'm', 'f')
                  and not (relkind = 'v' and 'security_invoker=true' = any(reloptions))";
    assert_eq!(count(&api, others).await, 0);
    let definers = rows(
        &api,
        "select p.proname as name, p.proconfig::text as settings,
                has_function_privilege('public', p.oid, 'execute') as anybody
         from pg_proc p where p.pronamespace = 'public'::regnamespace and p.prosecdef",
    )
    .await;
    let settings = "{\"search_path=pg_catalog, pg_temp\"}";
    let only = json!({ "name": "organisation_versions", "settings": settings, "anybody": false });
    assert_eq!(definers, [only]);
}

/// A table is told by the audit chain row by row, or there is a reason why not.
#[tokio::test]
async fn every_table_is_covered_by_the_audit_chain_or_need_not_be() {
    let api = Api::start().await;
    let covered = rows(
        &api,
        "select distinct table_name as name from information_schema.view_table_usage
         where view_schema = 'public' and view_name = 'covered_row'",
    )
    .await;
    let covered: Vec<_> = covered.iter().map(|row| row["name"].as_str().unwrap()).collect();
    let mut others = guarded(&api).await;
    others.retain(|table| !covered.contains(&table.as_str()));
    let reasons = [
        ("audit_entry", "the chain itself"),
        ("audit_head", "held against the entries"),
        ("consumable_condition", "a projection of documents, compared by a test"),
        ("kept_check", "setup and answer are the document of an entry"),
        ("organisation", "the settings are the document of an entry"),
        ("procedure_limit", "a projection of documents, compared by a test"),
        ("procedure_standing", "held against the events"),
        ("record", "held against revisions, events and entries"),
        ("retry", "answers, kept for a day"),
        ("welder_name", "names stand in no hash"),
    ];
    assert_eq!(others, reasons.map(|(table, _)| table));
}

#[tokio::test]
async fn the_services_role_owns_nothing() {
    let api = Api::start().await;
    let role = "(select oid from pg_roles where rolname = 'arcbounds_app')";
    for (catalogue, owner) in [
        ("pg_class", "relowner"),
        ("pg_proc", "proowner"),
        ("pg_type", "typowner"),
        ("pg_namespace", "nspowner"),
        ("pg_database", "datdba"),
        ("pg_policy p join pg_class c on c.oid = p.polrelid", "c.relowner"),
    ] {
        let owned = format!("select count(*) from {catalogue} where {owner} = {role}");
        assert_eq!(count(&api, &owned).await, 0, "{catalogue}");
    }
    let powers = "select rolsuper, rolbypassrls, rolcreaterole, rolcreatedb, rolreplication,
                         exists (select from pg_auth_members m where m.member = r.oid) as member
                  from pg_roles r where rolname = 'arcbounds_app'";
    for (power, has) in rows(&api, powers).await[0].as_object().unwrap() {
        assert_eq!(has, false, "{power}");
    }
    let schema = "select has_schema_privilege('arcbounds_app', 'public', 'create')::int::bigint";
    assert_eq!(count(&api, schema).await, 0, "it can make no table of its own");
}

#[tokio::test]
async fn the_services_role_may_no_more_than_it_needs() {
    let api = full().await;
    let actor = Actor::service(api.shop.organisation);
    for table in guarded(&api).await {
        let any = format!(
            "select has_table_privilege('arcbounds_app', '{table}', 'truncate')::int::bigint
                  + has_table_privilege('arcbounds_app', '{table}', 'update')::int::bigint
                  + has_any_column_privilege('arcbounds_app', '{table}', 'references')::int::bigint"
        );
        assert_eq!(count(&api, &any).await, 0, "{table}");
        // Nobody moves a row to another organisation.
        let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
        let moved = format!("update {table} set organisation_id = gen_random_uuid()");
        assert_eq!(refusal(tx.connection(), &moved).await, "42501", "{table}");
    }
    for table in INSERT_ONLY {
        let any = format!(
            "select has_any_column_privilege('arcbounds_app', '{table}', 'update')::int::bigint
                  + has_table_privilege('arcbounds_app', '{table}', 'delete')::int::bigint"
        );
        assert_eq!(count(&api, &any).await, 0, "{table}");
        let before = count(&api, &format!("select count(*) from {table}")).await;
        for statement in [format!("delete from {table}"), format!("truncate {table}")] {
            let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
            assert_eq!(refusal(tx.connection(), &statement).await, "42501", "{statement}");
        }
        assert_eq!(count(&api, &format!("select count(*) from {table}")).await, before);
    }
    for statement in [
        "update audit_entry set subject = 'x'",
        "update record_revision set document = '{}'",
        "update procedure_event set event = 'released'",
        "update kept_check set answer = '{}'",
        "update qualification_signature set statement = 'x'",
        "update qualification_attachment set content = ''",
        "delete from qualification_attachment",
        "update api_key set person_id = null",
        "update api_key set roles = '{admin}'",
        "delete from record",
        "delete from api_key",
        "delete from person",
        "delete from organisation",
        "delete from audit_head",
    ] {
        let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
        assert_eq!(refusal(tx.connection(), statement).await, "42501", "{statement}");
    }
}
