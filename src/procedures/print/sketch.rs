//! The joint as a drawing to scale, where the procedure states everything that the drawing shows.

use super::say::{Say, words};
use crate::{
    procedures::ProcedureDocument,
    qualifications::FitUpDocument,
    qualify::record::{Backing, GrooveKind, Sides, WeldKind},
    quantity::{Kind, Quantity, Range, Thickness},
    sheet::{Anchor, Drawing, Shape, Tone},
    trade::JointKind,
};

/// Width on paper in millimetres.
const PRINTED_WIDTH: f64 = 58.0;

/// White around the joint, as a share of the width of the drawing.
const MARGIN: f64 = 0.13;

/// Thickest part that is drawn where the procedure covers more.
const THICKEST: f64 = 40.0;

/// Steepest prepared edge that still makes a drawing, in degrees.
const STEEPEST: f64 = 75.0;

/// The joint, or why it is not drawn.
pub(super) fn sketch(document: &ProcedureDocument, say: &Say) -> Result<Drawing, String> {
    let thickness = thickness(document).ok_or("no thickness is stated")?;
    match weld(document)? {
        WeldKind::Butt => butt(document, thickness, say),
        WeldKind::Fillet => fillet(document, thickness, say),
        other => Err(format!("a {} is not drawn", words(other))),
    }
}

fn weld(document: &ProcedureDocument) -> Result<WeldKind, String> {
    let stated = document.joint_design.as_ref().and_then(|joint| joint.weld);
    stated.map_or_else(
        || match document.joints[..] {
            [JointKind::Butt] => Ok(WeldKind::Butt),
            [JointKind::Fillet] => Ok(WeldKind::Fillet),
            _ => Err("it covers several kinds of joint".to_owned()),
        },
        Ok,
    )
}

/// The thickest part it covers that fits a drawing, else the thinnest.
fn thickness(document: &ProcedureDocument) -> Option<Thickness> {
    let range = document.thickness?;
    let thickest = range.max().filter(|max| max.canonical() <= THICKEST);
    thickest.or_else(|| range.min())
}

/// One drawing being made, in millimetres of the joint: x from its middle, y down from the upper face.
struct Pen {
    shapes: Vec<Shape>,
    half_width: f64,
    top: f64,
    height: f64,
}

impl Pen {
    fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let margin = MARGIN * self.half_width;
        (x + self.half_width + margin, y - self.top + 2.0 * margin)
    }

    fn part(&mut self, points: &[(f64, f64)], tone: Tone) {
        let path = points.iter().map(|point| self.place(*point)).collect();
        self.shapes.push(Shape::Path(path, tone));
    }

    fn label(&mut self, at: (f64, f64), anchor: Anchor, words: String) {
        let at = self.place(at);
        self.shapes.push(Shape::Label { at, words, anchor });
    }

    fn done(self, caption: String) -> Drawing {
        let margin = MARGIN * self.half_width;
        let size = (2.0 * (self.half_width + margin), self.height + 4.0 * margin);
        Drawing { size, printed_width: PRINTED_WIDTH, shapes: self.shapes, caption }
    }
}

/// A prepared edge: its angle to the vertical and the two unprepared lengths.
struct Edges {
    left: f64,
    right: f64,
    gap: f64,
    face: f64,
}

fn butt(document: &ProcedureDocument, thickness: Thickness, say: &Say) -> Result<Drawing, String> {
    let joint = document.joint_design.as_ref().ok_or("no joint design is stated")?;
    let groove = joint.groove.ok_or("no shape of the groove is stated")?;
    let fit = joint.fit_up.as_ref().ok_or("no fit-up is stated")?;
    let t = thickness.canonical();
    let edges = edges(groove, fit, t)?;
    let depth = t - edges.face;
    let run = |angle: f64| edges.gap / 2.0 + depth * angle.to_radians().tan();
    let (left, right) = (run(edges.left), run(edges.right));
    let half_width = left.max(right) + t.max(12.0);
    let half = edges.gap / 2.0;
    let backed = matches!(joint.backing, Some(Backing::Permanent | Backing::Removable));
    let below = if backed { 0.3 * t.max(8.0) } else { 0.0 };
    let mut pen = Pen { shapes: Vec::new(), half_width, top: 0.0, height: t + below };
    let part = |sign: f64, run: f64| {
        [
            (sign * half_width, 0.0),
            (sign * run, 0.0),
            (sign * half, depth),
            (sign * half, t),
            (sign * half_width, t),
        ]
    };
    pen.part(&part(-1.0, left), Tone::Part);
    pen.part(&part(1.0, right), Tone::Part);
    if backed {
        let wide = half + t.max(8.0) * 0.6;
        pen.part(&[(-wide, t), (wide, t), (wide, t + below), (-wide, t + below)], Tone::Weld);
    }
    let above = -0.06 * half_width;
    if let Some(words) = angle_words(fit, groove, say) {
        pen.label((0.0, above), Anchor::Middle, words);
    }
    pen.label((-half_width * 0.96, t * 0.55), Anchor::Start, say.shortly(thickness));
    let mut caption =
        vec![format!("Preparation to scale for {}: {}", say.value(thickness), words(groove))];
    caption.extend(fit.root_gap.map(|gap| format!("gap {}", say.value(gap))));
    caption.extend(fit.root_face.map(|face| format!("root face {}", say.value(face))));
    if backed {
        let material = joint.backing_material.map(|own| format!("{} ", words(own)));
        let material = material.unwrap_or_default();
        caption.push(format!("{material}backing (its size is not to scale)"));
    }
    Ok(pen.done(caption.join(", ")))
}

/// What the drawing of a groove needs; the shapes that state less than a drawing shows are not drawn.
fn edges(groove: GrooveKind, fit: &FitUpDocument, t: f64) -> Result<Edges, String> {
    let gap = fit.root_gap.ok_or("no root gap is stated")?.canonical();
    let face = || fit.root_face.map(Quantity::canonical).ok_or("no root face is stated".to_owned());
    let edges = match groove {
        GrooveKind::Square => Edges { left: 0.0, right: 0.0, gap, face: t },
        GrooveKind::SingleV => {
            let whole = stated_angle(fit, groove).ok_or("no groove angle is stated")?;
            Edges { left: whole / 2.0, right: whole / 2.0, gap, face: face()? }
        }
        GrooveKind::SingleBevel => {
            let one = stated_angle(fit, groove).ok_or("no bevel angle is stated")?;
            Edges { left: 0.0, right: one, gap, face: face()? }
        }
        other => return Err(format!("its sizes do not settle a {} groove", words(other))),
    };
    if edges.face > t {
        return Err("the root face is more than the thickness".to_owned());
    }
    if edges.left.max(edges.right) > STEEPEST {
        return Err("its edges are too flat to be drawn".to_owned());
    }
    Ok(edges)
}

/// The angle between the prepared edges, in degrees.
fn stated_angle(fit: &FitUpDocument, groove: GrooveKind) -> Option<f64> {
    let whole = fit.groove_angle.map(Quantity::canonical);
    let one = fit.bevel_angle.map(Quantity::canonical);
    match groove {
        GrooveKind::SingleV => whole.or_else(|| one.map(|one| 2.0 * one)),
        GrooveKind::SingleBevel => one.or(whole),
        _ => None,
    }
}

fn angle_words(fit: &FitUpDocument, groove: GrooveKind, say: &Say) -> Option<String> {
    let whole = fit.groove_angle.map(|angle| say.shortly(angle));
    let one = fit.bevel_angle.map(|angle| say.shortly(angle));
    match groove {
        GrooveKind::SingleV => whole.or_else(|| one.map(|one| format!("{one} each side"))),
        GrooveKind::SingleBevel => one.or(whole),
        _ => None,
    }
}

fn fillet(
    document: &ProcedureDocument,
    thickness: Thickness,
    say: &Say,
) -> Result<Drawing, String> {
    let joint = document.joint_design.as_ref();
    let fit = joint.and_then(|joint| joint.fit_up.as_ref());
    let angle = fit.and_then(|fit| fit.joint_angle).map(Quantity::canonical);
    if angle.is_some_and(|angle| (angle - 90.0).abs() > 1e-6) {
        return Err("its parts do not meet at a right angle".to_owned());
    }
    // The leg of a fillet with equal legs at a right angle is its throat times the root of two (geometry).
    let leg = one_end("leg", document.leg.as_ref(), say);
    let throat = || {
        one_end("throat", document.throat.as_ref(), say)
            .map(|(throat, size)| (throat * 2.0_f64.sqrt(), size))
    };
    let (leg, size) = leg.or_else(throat).ok_or("neither leg nor throat is stated")?;
    let gap = fit.and_then(|fit| fit.root_gap).map_or(0.0, Quantity::canonical);
    let t = thickness.canonical();
    let half_width = t / 2.0 + 1.8 * leg.max(t);
    let up = 1.6 * leg.max(t);
    let mut pen = Pen { shapes: Vec::new(), half_width, top: -up - gap, height: up + gap + t };
    let triangle =
        |sign: f64| [(sign * t / 2.0, 0.0), (sign * (t / 2.0 + leg), 0.0), (sign * t / 2.0, -leg)];
    pen.part(
        &[(-half_width, 0.0), (half_width, 0.0), (half_width, t), (-half_width, t)],
        Tone::Part,
    );
    let web = [(-t / 2.0, -gap), (t / 2.0, -gap), (t / 2.0, -up - gap), (-t / 2.0, -up - gap)];
    pen.part(&web, Tone::Part);
    pen.part(&triangle(1.0), Tone::Weld);
    if joint.and_then(|joint| joint.sides) == Some(Sides::Both) {
        pen.part(&triangle(-1.0), Tone::Weld);
    }
    pen.label((t / 2.0 + 0.62 * leg, -0.62 * leg), Anchor::Start, size.clone());
    pen.label((-half_width * 0.96, t * 0.65), Anchor::Start, say.shortly(thickness));
    let right = if angle.is_none() { "; drawn at a right angle, no angle is stated" } else { "" };
    Ok(pen.done(format!("Fillet to scale for {}: {size}{right}", say.value(thickness))))
}

/// The lower end of a range, else the upper one: its number, and how it is said.
fn one_end<K: Kind>(name: &str, range: Option<&Range<K>>, say: &Say) -> Option<(f64, String)> {
    let end = range?.min().or_else(|| range?.max())?;
    Some((end.canonical(), format!("{name} {}", say.shortly(end))))
}
