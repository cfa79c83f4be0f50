#include "exchange/csv/write.hpp"

#include "catch.hpp"
#include "exchange/csv/csv.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::string written(const std::string& field) {
    std::ostringstream out;
    CsvWriter(out).text(field).number(7).end_row();
    return out.str();
}

TEST_CASE("texts are quoted and numbers stand bare") {
    CHECK(written("K07") == "\"K07\",7\n");
    CHECK(written("") == "\"\",7\n");
    CHECK(written("a \"b\", c\nd") == "\"a \"\"b\"\", c\nd\",7\n");
}

TEST_CASE("a text that could be a formula gets an apostrophe (OWASP, CSV Injection)") {
    for (const std::string start : {"=", "+", "-", "@", "\t", "\r"})
        CHECK(written(start + "1") == "\"'" + start + "1\",7\n");
    CHECK(written("1=1") == "\"1=1\",7\n");
}

TEST_CASE("what is written reads back as the same fields") {
    const std::vector<std::string> fields{"candidate",  "a \"b\"",  "c, d; e\tf",
                                          "two\nlines", " blanks ", "\xC3\xA9"};
    std::ostringstream out;
    CsvWriter csv(out);
    for (int row = 0; row < 2; ++row) {
        for (const std::string& field : fields)
            csv.text(field);
        csv.end_row();
    }
    std::istringstream in(out.str());
    CsvOptions options;
    options.delimiter = ',';
    CsvReader reader(in, options);
    for (int row = 0; row < 2; ++row) {
        REQUIRE(reader.next());
        CHECK(std::vector<std::string>(reader.cells().begin(), reader.cells().end()) == fields);
    }
    CHECK_FALSE(reader.next());
}

} // namespace
