#pragma once

#include "exchange/document/copies.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/papers.hpp"

#include <string>
#include <vector>

namespace inkturn {

class JsonValue;

/// Those from papers of these classes.
std::vector<Absence> exported_absences(const Store& store, const std::string& candidate,
                                       const std::vector<std::string>& classes);

/// Only if there are some.
void add_absences(const std::vector<Absence>& absences, Json& candidate);

/// By day, paper and class. `classes` are the candidate's.
std::vector<Absence> read_absences(const JsonValue& value, const PapersById& papers,
                                   const std::vector<std::string>& classes, Day today);

/// Notes one that is not on file.
void take_absence(Store::Change& change, const std::string& code, const Absence& in_file, Merge& merge);

} // namespace inkturn
