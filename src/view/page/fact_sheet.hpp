#pragma once

#include "inkturn/facts/recall.hpp"
#include "inkturn/facts/sheet.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `Sheet 3 for K07, Wed 25 Nov 2026: 6 facts, 4:30`
std::string title_of(const CandidateSheet& sheet);

/// A prompt a row, below it its answer where the sheet is `filled`, else a line to write on, under the names
/// of its topics. On one that is logged the rows missed say so.
std::string to_text(const CandidateSheet& sheet, bool filled);

/// The rows missed alone, with their answers.
std::string missed_text(const CandidateSheet& sheet);

/// The same as a page of HTML to print on A4 and pin up.
std::string to_html(const CandidateSheet& sheet, bool filled);

/// Facts as a candidate knows them: how each fared last and when it comes back.
Table facts_table(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                  const std::vector<DueFact>& due, Day today, const FactDays& fact_days = {});

} // namespace inkturn
