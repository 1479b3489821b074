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
void readStock(Fields& fields, StockSizes& into);

}  // namespace sillwright::practice
