#pragma once

#include <SQLiteCpp/Database.h>

#include <string>

namespace inkturn {

/// Marks a file as ours in SQLite's header: "inkt".
constexpr int store_application_id = 0x696E6B74;

/// Applies, each in one transaction with its version, the steps that the database does not have yet.
void migrate(SQLite::Database& database, int version);

} // namespace inkturn
