#include "inkturn/paper/label.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <utility>
#include <vector>

using namespace inkturn;

TEST_CASE("a label is read in the forms that papers print it in") {
    const std::vector<std::pair<const char*, const char*>> forms{
        {"7", "7"},       {"7b", "7b"},         {"7B", "7b"},
        {"7bii", "7bii"}, {"7(b)(ii)", "7bii"}, {"7 (b) (ii)", "7bii"},
        {"Q7", "7"},      {"q 7 b", "7b"},      {"Q7 (b)(ii)", "7bii"},
        {"A3c", "A3c"},   {"a3c", "A3c"},       {" 7 ", "7"},
        {"007", "7"},     {"999", "999"},       {"QA3", "A3"}};
    for (const auto& [text, label] : forms) {
        CAPTURE(text);
        CHECK(read_label(text).value_or("none") == label);
    }
}

TEST_CASE("a text that isn't a label is refused") {
    for (const char* const text :
         {"",       " ",   "Q",   "QQ7", "b",   "0",   "00",  "1000",  "7()",       "7(b",           "7b)",
          "7((b))", "7.b", "7-b", "-7",  "AB3", "7b2", "7\n", "total", "7\xC3\xA9", "7abcdefghijklm"}) {
        CAPTURE(text);
        CHECK_FALSE(read_label(text).has_value());
        CHECK_THROWS_AS(parse_label(text), Error);
    }
    CHECK_THROWS_WITH(parse_label("total"),
                      "'total' is not a part label: write a number and its sub-parts, such as 7, "
                      "7b, 7bii or A3c");
}

TEST_CASE("a question is what comes before the sub-parts") {
    CHECK(question_of("7") == "7");
    CHECK(question_of("12bii") == "12");
    CHECK(question_of("A3c") == "A3");
}

TEST_CASE("a short label is read as itself, whatever text it came from") {
    const std::string alphabet = "Aa17b() ";
    int wrong = 0;
    int labels = 0;
    std::vector<std::string> texts{""};
    for (std::size_t start = 0, length = 0; length < 5; ++length) {
        const std::size_t end = texts.size();
        for (; start < end; ++start)
            for (const char c : alphabet)
                texts.push_back(texts[start] + c);
    }
    for (const std::string& text : texts) {
        const auto label = read_label(text);
        if (!label)
            continue;
        ++labels;
        if (read_label(*label) != label || read_label("Q" + text) != label ||
            read_label(std::string(question_of(*label))) != question_of(*label))
            ++wrong;
    }
    CHECK(labels > 1000);
    CHECK(wrong == 0);
}
