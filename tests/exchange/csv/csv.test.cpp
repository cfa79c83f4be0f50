#include "exchange/csv/csv.hpp"
#include "catch.hpp"
#include "problems.hpp"

#include <sstream>
#include <streambuf>
#include <string>
#include <vector>

using namespace inkturn;
using namespace std::string_literals;
using Catch::Matchers::Matches;

namespace {

using Records = std::vector<std::vector<std::string>>;

CsvOptions in_chunks(std::size_t chunk) {
    CsvOptions options;
    options.chunk = chunk;
    return options;
}

CsvOptions divided_by(char delimiter) {
    CsvOptions options;
    options.delimiter = delimiter;
    return options;
}

CsvOptions in_windows_1252() {
    CsvOptions options;
    options.windows_1252 = true;
    return options;
}

Records records(const std::string& text, const CsvOptions& options = {}) {
    std::istringstream in(text);
    CsvReader reader(in, options);
    Records read;
    while (reader.next())
        read.emplace_back(reader.cells().begin(), reader.cells().end());
    return read;
}

/// What stops the reading, whatever the size of the chunks the text is read in: "line:column message".
std::string problem_of(const std::string& text, CsvOptions options = {}) {
    std::vector<std::string> problems;
    for (const std::size_t chunk : {1u, 2u, 3u, 7u, 64u, 65536u}) {
        options.chunk = chunk;
        try {
            records(text, options);
        } catch (const UnreadableFile& error) {
            problems.push_back(test::text_of(error.problem()));
        }
    }
    REQUIRE(problems == std::vector<std::string>(6, problems.at(0)));
    return problems[0];
}

std::string utf_16(const std::u16string& text, bool big_endian, bool with_mark = true) {
    std::string bytes;
    const auto append = [&](char16_t unit) {
        const char high = static_cast<char>(unit >> 8);
        const char low = static_cast<char>(unit & 0xFF);
        bytes += big_endian ? std::string{high, low} : std::string{low, high};
    };
    if (with_mark)
        append(0xFEFF);
    for (const char16_t unit : text)
        append(unit);
    return bytes;
}

/// A file that can be opened and not read, as a folder is.
class UnreadableBuffer : public std::streambuf {
  protected:
    int_type underflow() override { throw std::ios_base::failure("no"); }
};

} // namespace

TEST_CASE("a record is a line and its fields are divided by the delimiter") {
    CHECK(records("a,b\n1,2\n3,4\n") == Records{{"a", "b"}, {"1", "2"}, {"3", "4"}});
    CHECK(records("a\n1\n") == Records{{"a"}, {"1"}});
}

TEST_CASE("the last line break of a file is optional") {
    CHECK(records("a,b\n1,2") == Records{{"a", "b"}, {"1", "2"}});
    CHECK(records("a,b\n1,") == Records{{"a", "b"}, {"1", ""}});
    CHECK(records("a,b\n1,\"2\"") == Records{{"a", "b"}, {"1", "2"}});
}

TEST_CASE("lines end in LF or CRLF") {
    CHECK(records("a,b\r\n1,2\r\n3,4\n") == Records{{"a", "b"}, {"1", "2"}, {"3", "4"}});
    CHECK(records("a,b\r\n1,\"2\"\r\n") == Records{{"a", "b"}, {"1", "2"}});
}

TEST_CASE("lines that are wholly empty are passed over and counted") {
    std::istringstream in("\r\n\na,b\n\n\r\n1,2\n\n");
    CsvReader reader(in, {});
    REQUIRE(reader.next());
    CHECK(reader.line() == 3);
    REQUIRE(reader.next());
    CHECK(reader.line() == 6);
    CHECK_FALSE(reader.next());
    CHECK_FALSE(reader.next());
}

TEST_CASE("a line of an empty pair of quotes is a record") {
    CHECK(records("a\n\"\"\n") == Records{{"a"}, {""}});
}

TEST_CASE("a file of nothing or of empty lines has no record") {
    CHECK(records("").empty());
    CHECK(records("\n\r\n\n").empty());
    CHECK(records("\xEF\xBB\xBF").empty());
}

TEST_CASE("spaces belong to the field") {
    CHECK(records("a, b \n 1,2 \n") == Records{{"a", " b "}, {" 1", "2 "}});
}

TEST_CASE("a field may hold the delimiter, a line break or a quote when it is quoted") {
    CHECK(records("a,b\n\"1,5\",\"two\r\nlines\"\n\"say \"\"go\"\"\",\"\"\"\"\n") ==
          Records{{"a", "b"}, {"1,5", "two\r\nlines"}, {"say \"go\"", "\""}});
}

TEST_CASE("several fields of a record may have doubled quotes") {
    CHECK(records("a,b,c\n\"x\"\"1\",\"plain\",\"\"\"\"\"y\"\n\"\"\"z\",1,2\n") ==
          Records{{"a", "b", "c"}, {"x\"1", "plain", "\"\"y"}, {"\"z", "1", "2"}});
}

TEST_CASE("the same records come out whatever the size of the chunks") {
    const std::string text =
        "\xEF\xBB\xBF"
        "naïve,b,c\r\n\r\n\"x\"\"1\",\"p,l\nq\",\xE2\x82\xAC\n,,\n\"\xF0\x9F\x96\x8B\",\"\",z";
    const Records whole = records(text);
    REQUIRE(whole.size() == 4);
    CHECK(whole[3] == std::vector<std::string>{"\xF0\x9F\x96\x8B", "", "z"});
    for (std::size_t chunk = 1; chunk < 40; ++chunk)
        CHECK(records(text, in_chunks(chunk)) == whole);
}

TEST_CASE("a record may be longer than a chunk") {
    const std::string big(300000, 'x');
    CHECK(records("a,b\n" + big + ",\"" + big + "\"\n1,2\n", in_chunks(4096)) ==
          Records{{"a", "b"}, {big, big}, {"1", "2"}});
}

TEST_CASE("the header chooses the delimiter") {
    CHECK(records("a;b\n1;2,5\n") == Records{{"a", "b"}, {"1", "2,5"}});
    CHECK(records("a\tb\n1\t2;5,0\n") == Records{{"a", "b"}, {"1", "2;5,0"}});
    CHECK(records("a,b,c;d\n1,2,3\n") == Records{{"a", "b", "c;d"}, {"1", "2", "3"}});
    CHECK(records("alone\n1,2\n") == Records{{"alone"}, {"1", "2"}});
}

TEST_CASE("delimiters in quotes do not choose") {
    CHECK(records("\"a;b;c\",d\n1,2\n") == Records{{"a;b;c", "d"}, {"1", "2"}});
    CHECK(records("\"a\n;;\"\"\",d\n1,2\n", in_chunks(1)) == Records{{"a\n;;\"", "d"}, {"1", "2"}});
}

TEST_CASE("a delimiter that was given is not sniffed") {
    CHECK(records("a,b;c\n1;2\n", divided_by(';')) == Records{{"a,b", "c"}, {"1", "2"}});
}

TEST_CASE("a delimiter is never guessed on a tie") {
    CHECK_THAT(problem_of("a,b;c\n1,2\n"), Matches("1:1 .*as many commas as semicolons.*"));
    CHECK_THAT(problem_of("\n\na\tb;c\n"), Matches("3:1 .*--delimiter.*"));
}

TEST_CASE("UTF-16 with a byte order mark is read") {
    const std::u16string text = u"a;b\r\n\u00E9;\u20AC\n\U0001F58B;2\n";
    const Records expected{{"a", "b"}, {"\xC3\xA9", "\xE2\x82\xAC"}, {"\xF0\x9F\x96\x8B", "2"}};
    for (std::size_t chunk = 1; chunk < 12; ++chunk) {
        CHECK(records(utf_16(text, false), in_chunks(chunk)) == expected);
        CHECK(records(utf_16(text, true), in_chunks(chunk)) == expected);
    }
}

TEST_CASE("windows-1252 is read when the options say so") {
    CHECK(records("a,b\nRen\xE9,\x80\x9F\n", in_windows_1252()) ==
          Records{{"a", "b"}, {"Ren\xC3\xA9", "\xE2\x82\xAC\xC5\xB8"}});
}

TEST_CASE("a byte order mark is believed before the options") {
    CHECK(records("\xEF\xBB\xBF"
                  "a\n\xC3\xA9\n",
                  in_windows_1252()) == Records{{"a"}, {"\xC3\xA9"}});
}

TEST_CASE("the place of a field is its line and its first character") {
    std::istringstream in(
        "\xEF\xBB\xBF"
        "na\xC3\xAFve,b,c\n\"two\nl\xC3\xAFnes\",\"x\"\"y\",z\n\n1,\xE2\x82\xAC\xE2\x82\xAC,3\n");
    CsvReader reader(in, {});
    REQUIRE(reader.next());
    CHECK(reader.column(0) == 1);
    CHECK(reader.column(1) == 7);
    CHECK(reader.column(2) == 9);
    REQUIRE(reader.next());
    CHECK(reader.line(0) == 2);
    CHECK(reader.column(0) == 1);
    CHECK(reader.line(1) == 3);
    CHECK(reader.column(1) == 8);
    CHECK(reader.line(2) == 3);
    CHECK(reader.column(2) == 15);
    REQUIRE(reader.next());
    CHECK(reader.line(2) == 5);
    CHECK(reader.column(2) == 6);
}

TEST_CASE("a quote that is not closed is placed where it opened") {
    CHECK_THAT(problem_of("a,b\n1,\"2\n3,4\n"), Matches("2:3 .*not closed.*"));
    CHECK_THAT(problem_of("a,b\n\"1\n\n\",\"2"), Matches("4:3 .*not closed.*"));
    CHECK_THAT(problem_of("a,b\n1,\"2\"\""), Matches("2:3 .*not closed.*"));
}

TEST_CASE("a record above a mebibyte is not read on") {
    const std::string lines = [] {
        std::string text;
        while (text.size() < 3 * 1024 * 1024)
            text += "1,2,3,4,5,6,7,8\n";
        return text;
    }();
    CHECK_THAT(problem_of("a,b\n1,\"2\n" + lines, in_chunks(65536)), Matches("2:3 .*not closed.*"));
}

TEST_CASE("a quote inside a bare field is refused at its place") {
    CHECK_THAT(problem_of("a,b\n1,2\"x\"\n"), Matches("2:4 .*quote inside a field.*"));
}

TEST_CASE("text after a closing quote is refused at its place") {
    CHECK_THAT(problem_of("a,b\n\"1\"x,2\n"), Matches("2:4 .*after a closing quote.*"));
    CHECK_THAT(problem_of("a,b\n1,\"2\" \n"), Matches("2:6 .*after a closing quote.*"));
}

TEST_CASE("a carriage return alone ends no line") {
    CHECK_THAT(problem_of("a,b\r1,2\r"), Matches("1:4 .*carriage return.*"));
    CHECK_THAT(problem_of("a,b\n1,2\r"), Matches("2:4 .*carriage return.*"));
    CHECK_THAT(problem_of("\ra,b\n"), Matches("1:1 .*carriage return.*"));
}

TEST_CASE("a NUL is refused at its place") {
    CHECK_THAT(problem_of("a,b\n1,\xC3\xA9x\0y\n"s), Matches("2:5 .*NUL.*"));
    CHECK_THAT(problem_of("a,b\n1,\"x\n\0\"\n"s), Matches("3:1 .*NUL.*"));
    CHECK_THAT(problem_of("a,b\n1,2\n\0"s), Matches("3:1 .*NUL.*"));
    CHECK_THAT(problem_of("a,b\n1,\0"s, in_windows_1252()), Matches("2:3 .*NUL.*"));
    CHECK_THAT(problem_of(utf_16(u"a,b\n1,\0x"s, true)), Matches("2:3 .*NUL.*"));
}

TEST_CASE("bytes that are no UTF-8 are refused at their place") {
    const std::vector<std::string> bad{"\x80",
                                       "\xE9",
                                       "\xC0\x80",
                                       "\xC1\xBF",
                                       "\xE0\x9F\xBF",
                                       "\xED\xA0\x80",
                                       "\xF0\x8F\xBF\xBF",
                                       "\xF4\x90\x80\x80",
                                       "\xF5\x80\x80\x80",
                                       "\xC3",
                                       "\xE2\x82",
                                       "\xF0\x9F\x96",
                                       "\xFF"};
    for (const std::string& bytes : bad) {
        CAPTURE(bytes);
        CHECK_THAT(problem_of("a,b\n12345678,\xC3\xA9" + bytes + ",x\n"),
                   Matches("2:11 .*--encoding windows-1252.*"));
        CHECK_THAT(problem_of("a,b\n1,\xE2\x82\xAC" + bytes), Matches("2:4 .*not UTF-8.*"));
    }
}

TEST_CASE("the first and last characters of each length are UTF-8") {
    for (const std::string text : {"\x01", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF",
                                   "\xEE\x80\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        CHECK(records("a\n" + text + "\n") == Records{{"a"}, {text}});
}

TEST_CASE("records before a fault are read first") {
    std::istringstream in("a,b\n1,2\n3,\xFF\n");
    CsvReader reader(in, {});
    CHECK(reader.next());
    CHECK(reader.next());
    CHECK_THROWS_AS(reader.next(), UnreadableFile);
}

TEST_CASE("bytes that windows-1252 leaves open are refused at their place") {
    CHECK_THAT(problem_of("a,b\n\x80\x80,\x81\n", in_windows_1252()), Matches("2:4 .*0x81.*"));
}

TEST_CASE("half of a UTF-16 pair is refused at its place") {
    CHECK_THAT(problem_of(utf_16({u'a', u'\n', u'1', 0xD83D, u'x'}, false)),
               Matches("2:2 .*half of a UTF-16 pair.*"));
    CHECK_THAT(problem_of(utf_16({u'a', u'\n', u'1', 0xDD8B, u'x'}, true)),
               Matches("2:2 .*half of a UTF-16 pair.*"));
    CHECK_THAT(problem_of(utf_16({u'a', u'\n', u'1', 0xD83D}, true)), Matches("2:2 .*ends inside.*"));
    CHECK_THAT(problem_of(utf_16(u"a\n12", false) + "x"), Matches("2:3 .*ends inside.*"));
}

TEST_CASE("UTF-16 without a byte order mark is told by its NULs") {
    CHECK_THAT(problem_of(utf_16(u"a,b\n", false, false)), Matches("0:0 .*UTF-16.*"));
    CHECK_THAT(problem_of(utf_16(u"a,b\n", true, false)), Matches("0:0 .*save the file as UTF-8.*"));
}

TEST_CASE("a workbook in one piece of XML is recognised by its first bytes") {
    const auto kind = [](const std::string& ending) {
        return Matches("0:0 this is a workbook in one piece \\(" + ending +
                       "\\): .* save it as .xlsx or .ods .*");
    };
    CHECK_THAT(problem_of("<?xml version=\"1.0\"?>\n<office:document>"), kind(".fods"));
    CHECK_THAT(problem_of("<?xml version=\"1.0\"?>\n<Workbook>"), kind(".xml"));
    CHECK(records("PK1,b\n") == Records{{"PK1", "b"}});
}

TEST_CASE("bytes that were taken from the file already are read first") {
    const std::string whole = "\xEF\xBB\xBF"
                              "a,b\n\xC3\xA4,2\n";
    for (const std::size_t chunk : {1u, 3u, 65536u})
        for (std::size_t taken = 0; taken <= 4; ++taken) {
            std::istringstream in(whole.substr(taken));
            CsvReader reader(in, in_chunks(chunk), whole.substr(0, taken));
            REQUIRE(reader.next());
            CHECK(reader.cells().front() == "a");
            REQUIRE(reader.next());
            CHECK(reader.cells().front() == "\xC3\xA4");
            CHECK_FALSE(reader.next());
        }
}

TEST_CASE("a file that can't be read is not an empty file") {
    UnreadableBuffer buffer;
    std::istream in(&buffer);
    CsvReader reader(in, {});
    CHECK_THROWS_AS(reader.next(), UnreadableFile);
}

TEST_CASE("progress tells the bytes that have been read") {
    std::vector<std::size_t> told;
    CsvOptions options = in_chunks(4);
    options.progress = [&](std::size_t bytes) { told.push_back(bytes); };
    records("a,b\n1,2\n3", options);
    CHECK(told == std::vector<std::size_t>{4, 8, 9});
}

TEST_CASE("a first line that states the delimiter is no record") {
    for (const std::size_t chunk : {1u, 2u, 5u, 7u, 64u}) {
        CHECK(records("sep=;\na,b;c\n1;2\n", in_chunks(chunk)) == Records{{"a,b", "c"}, {"1", "2"}});
        CHECK(records("\xEF\xBB\xBFSEP=,\r\n\r\na,b\n", in_chunks(chunk)) == Records{{"a", "b"}});
        CHECK(records("sep=;", in_chunks(chunk)).empty());
    }
    CHECK(records("sep=;x\n") == Records{{"sep=", "x"}});
    CHECK(records("sep=;\na,b\n", divided_by(',')) == Records{{"a", "b"}});
    std::istringstream in("sep=;\na;b\n");
    CsvReader reader(in, {});
    REQUIRE(reader.next());
    CHECK(reader.line() == 2);
}

TEST_CASE("the first line with a delimiter settles it") {
    for (const std::size_t chunk : {1u, 3u, 64u})
        CHECK(records("Set 2\n\nMarked by JB\na;b,c;d\n1;2;3\n", in_chunks(chunk)) ==
              Records{{"Set 2"}, {"Marked by JB"}, {"a", "b,c", "d"}, {"1", "2", "3"}});
}

TEST_CASE("windows-1252 is doubtful where the bytes are UTF-8") {
    const auto is_doubtful = [](const std::string& text, CsvOptions options) -> bool {
        std::vector<bool> said;
        for (const std::size_t chunk : {1u, 2u, 64u}) {
            options.chunk = chunk;
            std::istringstream in(text);
            CsvReader reader(in, options);
            while (reader.next()) {
            }
            said.push_back(reader.encoding_is_doubtful());
        }
        REQUIRE(said == std::vector<bool>(3, said[0]));
        return said[0];
    };
    CHECK(is_doubtful("a,b\nZo\xC3\xAB,1\n", in_windows_1252()));
    CHECK_FALSE(is_doubtful("a,b\nZo\xC3\xAB,1\n", {}));
    CHECK_FALSE(is_doubtful("a,b\nZo\xEB,1\n", in_windows_1252()));
    CHECK_FALSE(is_doubtful("a,b\nZoe,1\n", in_windows_1252()));
    CHECK_FALSE(is_doubtful("a,b\nZo\xC3\xAB,\xEB\n", in_windows_1252()));
    CHECK_FALSE(is_doubtful("a,b\nZo\xC3", in_windows_1252()));
}
