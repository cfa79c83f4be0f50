#include "exchange/csv/write.hpp"

#include <ostream>

namespace inkturn {
namespace {

bool could_be_formula(std::string_view field) {
    return !field.empty() && std::string_view("=+-@\t\r").find(field.front()) != std::string_view::npos;
}

} // namespace

CsvWriter& CsvWriter::text(std::string_view field) {
    separate();
    out_ << '"';
    if (could_be_formula(field))
        out_ << '\'';
    for (const char c : field) {
        if (c == '"')
            out_ << '"';
        out_ << c;
    }
    out_ << '"';
    return *this;
}

CsvWriter& CsvWriter::number(std::size_t field) {
    separate();
    out_ << field;
    return *this;
}

CsvWriter& CsvWriter::tenths(std::size_t field) {
    separate();
    out_ << field / 10 << '.' << field % 10;
    return *this;
}

CsvWriter& CsvWriter::signed_number(std::optional<long> field) {
    separate();
    if (field)
        out_ << *field;
    return *this;
}

void CsvWriter::end_row() {
    out_ << '\n';
    in_row_ = false;
}

void CsvWriter::separate() {
    if (in_row_)
        out_ << ',';
    in_row_ = true;
}

} // namespace inkturn
