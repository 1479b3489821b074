/// What wood bears under a dowel, what a dowel bears in bending, and what holds along its length: the material side of
/// the dowel equations (dowel.h), by the American (NDS 2018) and the European (EN 1995-1-1:2004 + A1:2008) method.
///
/// Millimetres, newtons and N/mm²; specific gravities have no unit, characteristic densities are in kg/m³, angles are
/// between the force and the grain, in degrees. The American formulas are in inches and pounds and are turned here.
///
/// A reveal is bored wide for the shank and a stud not at all, so both take the value of wood that is not bored.
#pragma once

namespace sillwright::plan {

/// Bearing strength of wood under a dowel thinner than 1/4 in, any direction of grain: 16600·G^1.84 psi (12.3.3).
[[nodiscard]] double embeddingNds(double specific_gravity);
/// Bearing strength of wood that is not bored: 0.082·ρ·d^−0.3 (eq. 8.15).
[[nodiscard]] double embeddingEc5(double density, double diameter);
/// Plastic moment of a round section, N·mm: F_yb·D³/6.
[[nodiscard]] double plasticMoment(double yield, double diameter);
/// Characteristic yield moment, N·mm: 0.3·f_u·d^2.6, f_u the tensile strength (eq. 8.14, 8.30).
[[nodiscard]] double yieldMomentEc5(double tensile, double diameter);

/// Withdrawal from side grain for each mm of thread or of depth, N/mm. Wood screw: 2850·G²·D lb/in (12.2-2).
[[nodiscard]] double withdrawalNds(double specific_gravity, double shank);
}  // namespace sillwright::plan
