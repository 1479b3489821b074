/// How each group of a practice is read: one function a table, each key named once. Private to this room.
#pragma once

#include "practice/fields.h"
#include "practice/practice.h"

namespace sillwright::practice {

void readWords(Fields& fields, Words& into);
void readFraming(Fields& fields, Framing& into);
void readUnit(Fields& fields, UnitDefaults& into);
void readClearance(Fields& fields, Clearance& into);
void readSurvey(Fields& fields, Survey& into);
void readPacking(Fields& fields, Packing& into);
void readOpeningTolerance(Fields& fields, OpeningTolerance& into);
void readInstalledTolerance(Fields& fields, InstalledTolerance& into);
/// `strength` has the gauges that its screws are named by.
void readStock(Fields& fields, const Strength& strength, StockSizes& into);

void readWind(Fields& fields, Wind& into);
void readFixing(Fields& fields, Fixing& into);
void readFixingDesign(Fields& fields, FixingDesign& into);
void readGauge(Fields& fields, Gauge& into);
void readTimber(Fields& fields, Timber& into);

/// `wind` has the classes that its figures are named by.
void readWeather(Fields& fields, const Wind& wind, Weather& into);
void readSafety(Fields& fields, Safety& into);

}  // namespace sillwright::practice
