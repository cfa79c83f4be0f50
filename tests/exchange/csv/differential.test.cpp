#include "catch.hpp"
#include "exchange/csv/csv.hpp"

#include <csv.h>

#include <optional>
#include <random>
#include <sstream>
#include <string>
#include <vector>

using namespace inkturn;

namespace {

using Records = std::vector<std::vector<std::string>>;

std::optional<Records> ours(const std::string& text, std::size_t chunk) {
    std::istringstream in(text);
    CsvOptions options;
    options.delimiter = ',';
    options.chunk = chunk;
    CsvReader reader(in, options);
    Records records;
    try {
        while (reader.next())
            records.emplace_back(reader.cells().begin(), reader.cells().end());
    } catch (const UnreadableFile&) {
        return std::nullopt;
    }
    return records;
}

struct Collected {
    Records records;
    std::vector<std::string> record;
};

void take_field(void* field, std::size_t length, void* collected) {
    static_cast<Collected*>(collected)->record.emplace_back(static_cast<const char*>(field), length);
}

void take_record(int, void* collected) {
    auto& all = *static_cast<Collected*>(collected);
    all.records.push_back(std::move(all.record));
    all.record.clear();
}

/// By libcsv in its strict mode; nothing where it refuses the text.
std::optional<Records> theirs(const std::string& text) {
    csv_parser parser;
    REQUIRE(csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) == 0);
    csv_set_space_func(&parser, [](unsigned char) { return 0; });
    Collected collected;
    const bool whole =
        csv_parse(&parser, text.data(), text.size(), take_field, take_record, &collected) == text.size() &&
        csv_fini(&parser, take_field, take_record, &collected) == 0;
    csv_free(&parser);
    return whole ? std::optional(collected.records) : std::nullopt;
}

class Documents {
  public:
    explicit Documents(unsigned seed) : random_(seed) {}

    /// Mostly good CSV; a few characters are sown into some of it.
    std::string next() {
        const std::string line_end = pick(2) == 0 ? "\n" : "\r\n";
        std::string text;
        for (std::size_t row = 1 + pick(5); row > 0; --row) {
            for (std::size_t field = 1 + pick(5); field > 0; --field)
                text += this->field() + (field > 1 ? "," : "");
            text += pick(20) == 0 ? std::string(pick(3), '\n') : line_end;
        }
        if (pick(3) == 0)
            text.resize(text.size() - line_end.size() * (text.size() >= line_end.size() ? 1 : 0));
        if (pick(4) == 0 && !text.empty())
            text[pick(text.size())] = "\",\nx"[pick(4)];
        return text;
    }

  private:
    std::size_t pick(std::size_t below) {
        return std::uniform_int_distribution<std::size_t>(0, below - 1)(random_);
    }

    std::string field() {
        switch (pick(4)) {
        case 0:
            return {};
        case 1:
            return content({"a", "7", " ", "-", "\xC3\xA9", ";"});
        default:
            return '"' + content({"b", " ", ",", "\n", "\r\n", "\"\"", "\xE2\x82\xAC", "\t"}) + '"';
        }
    }

    std::string content(const std::vector<std::string>& pieces) {
        std::string text;
        for (std::size_t i = pick(9); i > 0; --i)
            text += pieces[pick(pieces.size())];
        return text;
    }

    std::mt19937 random_;
};

} // namespace

TEST_CASE("random documents have the cells that libcsv finds in them") {
    Documents documents(20261125);
    std::size_t compared = 0;
    for (int i = 0; i < 6000; ++i) {
        const std::string text = documents.next();
        CAPTURE(i, text);
        const auto expected = theirs(text);
        const auto found = ours(text, 1 + static_cast<std::size_t>(i) % 40);
        if (!expected || !found)
            continue;
        ++compared;
        REQUIRE(*found == *expected);
    }
    CHECK(compared >= 4000);
}

TEST_CASE("what libcsv refuses in its strict mode is refused") {
    for (const std::string text : {"a,b\n1,\"2\"x\n", "a,b\n1\"2,3\n", "a,b\n1,\"2\n"}) {
        CAPTURE(text);
        CHECK_FALSE(theirs(text));
        CHECK_FALSE(ours(text, 16));
    }
}
