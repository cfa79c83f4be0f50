#pragma once

#include "inkturn/base/day.hpp"

#include <SQLiteCpp/Database.h>

#include <string>

namespace inkturn {

/// Marks a file as ours in SQLite's header: "inkt".
constexpr int store_application_id = 0x696E6B74;

/// Applies the steps that the database does not have yet and checks what results, in one transaction with the
/// version and the day. Throws Error of kind damaged where it is not sound.
void migrate(SQLite::Database& database, Day today);

} // namespace inkturn
