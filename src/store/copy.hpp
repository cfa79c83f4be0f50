#pragma once

#include <SQLiteCpp/Database.h>

#include <string>

namespace inkturn {

/// Copies what a database holds at one moment, whatever other programs write meanwhile, to a new file that
/// only its owner may read. The copy is on the disk, has been checked, and only then gets its name. Throws
/// Error, of kind conflict, if a file of that name exists, and if the copy can't be written;
/// SQLite::Exception if the database can't be read.
void copy_database(SQLite::Database& from, const std::string& to);
/// The same of one that may be damaged: what is there is copied.
void copy_damaged_database(SQLite::Database& from, const std::string& to);

/// The name, or if it is taken the first of `NAME-2`, `NAME-3`, ... that is not.
std::string free_name(const std::string& name);

/// Puts what changed in the folder of this file on the disk: names that came, went or changed.
void sync_folder_of(const std::string& file);

} // namespace inkturn
