/// What a person takes away: a picture of the view as it stands, sheets for the printer, lists for the order.
///
/// Each is written beside the job under a name that nothing has yet.
#pragma once

#include <string>

namespace sillwright::view {

struct App;
struct TakePicture;
struct TakeSheets;

/// "N1" of an opening's name: what of it can stand in a file's name.
[[nodiscard]] std::string fileWord(const std::string& name);

/// The picked opening's name, else the picked wall's; empty: neither is picked.
[[nodiscard]] std::string nameOfPicked(const App& app);

/// Announces a picture; the frame then draws it.
void takePicture(App& app, const TakePicture& wish);
void takeSheets(App& app, const TakeSheets& wish);
void takeLists(App& app);

}  // namespace sillwright::view
