#pragma once

#include <string_view>

// Each takes one input, whatever it holds, and holds what comes of it against a rule. An Error is an answer;
// any other exception, and a rule that does not hold, ends the program.

namespace inkturn::fuzz {

// What people type.
void marks_entry(std::string_view input);
void dates(std::string_view input);
void events(std::string_view input);

// Tables, as CSV.
void paper_csv(std::string_view input);
void class_csv(std::string_view input);
void wishes_csv(std::string_view input);
void boundaries_csv(std::string_view input);
void facts_csv(std::string_view input);
void retried_csv(std::string_view input);

// Files.
void workbook(std::string_view input);
void export_json(std::string_view input);
void picture(std::string_view input);
void words_of_a_pdf(std::string_view input);
void store_file(std::string_view input);

/// Ends the program where a rule does not hold.
void insist(bool holds);

} // namespace inkturn::fuzz
