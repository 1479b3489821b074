/// What wood bears under a dowel, what a dowel bears in bending, and what holds along its length: the material side of
/// the dowel equations (dowel.h), by the American (NDS 2018) and the European (EN 1995-1-1:2004 + A1:2008) method.
///
/// Millimetres, newtons and N/mm²; specific gravities have no unit, characteristic densities are in kg/m³, angles are
/// between the force and the grain, in degrees. The American formulas are in inches and pounds and are turned here.
///
/// What fixings of a unit call for is used by fixing_capacity.h. The rest is here for joints that they are not, and
/// isn't used: bolts (a screw's root is thinner than 1/4 in, and no more than 6 mm), lag screws and nails, wood bored
/// to the screw's own diameter (a reveal is bored wide for the shank and a stud not at all, so the lower value of wood
/// that isn't bored is taken), heads pulled through (wind and weight load a reveal's screws across, and a fin is
/// metal).
#pragma once

namespace sillwright::plan {

/// Bearing strength of wood under a dowel thinner than 1/4 in, any direction of grain: 16600·G^1.84 psi (12.3.3).
[[nodiscard]] double embeddingNds(double specific_gravity);
/// The same from 1/4 in: 11200·G psi along the grain, 6100·G^1.45/√D psi across it, Hankinson's formula between.
[[nodiscard]] double embeddingNdsBolt(double specific_gravity, double diameter, double degrees);

/// Without pre-drilling: 0.082·ρ·d^−0.3 (eq. 8.15).
[[nodiscard]] double embeddingEc5(double density, double diameter);
/// Pre-drilled: 0.082·(1 − 0.01·d)·ρ (eq. 8.16).
[[nodiscard]] double embeddingEc5Bored(double density, double diameter);
/// Under a bolt in softwood: the pre-drilled value over k_90·sin²α + cos²α, k_90 = 1.35 + 0.015·d (eq. 8.31, 8.33).
[[nodiscard]] double embeddingEc5Bolt(double density, double diameter, double degrees);

/// Plastic moment of a round section, N·mm: F_yb·D³/6.
[[nodiscard]] double plasticMoment(double yield, double diameter);
/// Characteristic yield moment, N·mm: 0.3·f_u·d^2.6, f_u the tensile strength (eq. 8.14, 8.30).
[[nodiscard]] double yieldMomentEc5(double tensile, double diameter);

/// Withdrawal from side grain for each mm of thread or of depth, N/mm. Wood screw: 2850·G²·D lb/in (12.2-2).
[[nodiscard]] double withdrawalNds(double specific_gravity, double shank);
/// Lag screw: 1800·G^1.5·D^0.75 lb/in (12.2-1).
[[nodiscard]] double withdrawalNdsLag(double specific_gravity, double shank);
/// Smooth nail: 1380·G^2.5·D lb/in (12.2-3).
[[nodiscard]] double withdrawalNdsNail(double specific_gravity, double shank);

/// A round head pulled through `thickness` of wood, N: 690·π·D_H·G²·t to 2.5·D_H, 1725·π·D_H²·G² beyond (12.2.5).
[[nodiscard]] double headPullThroughNds(double specific_gravity, double head, double thickness);
/// The same without test data, N: 70e-6·ρ²·d_h², a smooth nail's (8.40b, 8.3.2; from memory).
[[nodiscard]] double headPullThroughEc5(double density, double head);

}  // namespace sillwright::plan
