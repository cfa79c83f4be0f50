#include "exchange/csv/csv.hpp"
#include "catch.hpp"

#include <sstream>
#include <string>
#include <vector>

using namespace inkturn;

namespace {

using Records = std::vector<std::vector<std::string>>;

Records records(const std::string& text) {
    std::istringstream in(text);
    CsvReader reader(in, {});
    Records read;
    while (reader.next())
        read.emplace_back(reader.cells().begin(), reader.cells().end());
    return read;
}

} // namespace

TEST_CASE("RFC 4180 section 2: the definition's own examples", "[reference]") {
    const Records two_rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    // 1. and 2.: CRLF between records, the last one optional
    CHECK(records("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two_rows);
    CHECK(records("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two_rows);
    // 3.: a header of the same form
    CHECK(records("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").size() == 3);
    // 4.: spaces belong to the field
    CHECK(records("aaa, bbb ,ccc\r\n") == Records{{"aaa", " bbb ", "ccc"}});
    // 5.: each field may be in quotes or not
    CHECK(records("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two_rows);
    // 6.: line breaks, quotes and commas are in quotes
    CHECK(records("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          Records{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    // 7.: a quote inside is doubled
    CHECK(records("\"aaa\",\"b\"\"bb\",\"ccc\"") == Records{{"aaa", "b\"bb", "ccc"}});
}
