#include "catch.hpp"
#include "exchange/document/document.hpp"
#include "exchange/document/example_export.hpp"
#include "exchange/document/strict_json.hpp"
#include "exchange/document/world.hpp"
#include "inkturn/base/error.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

std::string refusal_of_text(const std::string& text) {
    return refusal_of([&] { read_text(text); });
}

/// Why the example is refused once the first `from` in it is `to`.
std::string refusal_with(const std::string& from, const std::string& to) {
    std::string text = example();
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return refusal_of_text(text.replace(at, from.size(), to));
}

/// Why the example is refused once the value at the pointer is another.
std::string refusal_at(const std::string& pointer, const Json& value) {
    Json json = example_json();
    json.at(Json::json_pointer(pointer)) = value;
    return refusal(json);
}

/// Why the example is refused once the key at the pointer is gone.
std::string refusal_without(const std::string& object, const std::string& key) {
    Json json = example_json();
    json.at(Json::json_pointer(object)).erase(key);
    return refusal(json);
}

const std::string sitting = "/candidates/0/sittings/0";

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

} // namespace

TEST_CASE("a file that is not JSON is refused with line and column") {
    CHECK_THAT(refusal_of_text(""), StartsWith("the file is empty"));
    CHECK_THAT(refusal_of_text(" \r\n\t"), StartsWith("the file is empty"));
    CHECK_THAT(refusal_of_text("\xEF\xBB\xBF"), StartsWith("the file is empty"));
    CHECK_THAT(refusal_of_text("candidate,1,2a\n"), StartsWith("this is not an export of inkturn"));
    CHECK_THAT(refusal_of_text("{\"format\":\n \"\xC3\xA9\xE2\x82\xAC\", x}"),
               StartsWith("line 2, column 8: this is not JSON"));
    CHECK_THAT(refusal_of_text("\xEF\xBB\xBF{x}"), StartsWith("line 1, column 2: this is not JSON"));
    CHECK_THAT(refusal_of_text("{}\n{}"), StartsWith("line 2, column 1: this is not JSON"));
    CHECK_THAT(refusal_of_text("{\"format\": 1e999}"), StartsWith("line 1, column 16: this is not JSON"));
    CHECK_THAT(refusal_of_text("{\"\\ud800\": 1}"), StartsWith("line 1, column 9: this is not JSON"));
    CHECK_THAT(refusal_of_text(example().substr(0, 50)),
               StartsWith("line 4, column 3: the file ends too early"));
}

TEST_CASE("bytes that are not UTF-8 are refused with line and column") {
    CHECK_THAT(refusal_of_text("{\n\"\xC3\xA9\xE9\": 1}"), StartsWith("line 2, column 3: this is not UTF-8"));
    CHECK_THAT(refusal_of_text("\xFF\xFE{\0"), StartsWith("this is not an export of inkturn"));
    CHECK_THAT(refusal_of_text("{}\n\xE2\x82"), StartsWith("line 2, column 1: this is not UTF-8"));
}

TEST_CASE("a key that appears twice is refused") {
    CHECK_THAT(refusal_with("\"2a\": \"-", "\"1\": \"-"),
               StartsWith("candidates[0].sittings[0].marks.1: the key appears twice"));
    CHECK_THAT(refusal_with("\"exams\"", "\"papers\""), StartsWith("papers: the key appears twice"));
    CHECK_THAT(refusal_with("\"title\": \"Pure", "\"paper\": \"Pure"),
               StartsWith("papers[1].paper: the key appears twice"));
    CHECK_THAT(refusal_with("\"2\": \"2026-11-20\"", "\"2\": \"2026-11-20\", \"2\": \"2026-11-20\""),
               StartsWith("candidates[0].sittings[0].kept_days.2: the key appears twice"));
}

TEST_CASE("what nests too deeply is refused") {
    const std::string bomb(200000, '[');
    CHECK_THAT(refusal_of_text("{\"a\":" + bomb), Contains("nested deeper than an export is"));
    CHECK_THAT(refusal_with("null", bomb),
               StartsWith("papers[0].duration_seconds[0]") && Contains(": nested deeper than an export is"));
    std::string objects;
    for (int i = 0; i < 1000; ++i)
        objects += "{\"a\":";
    CHECK_THAT(refusal_of_text(objects),
               StartsWith("a.a.a.a.") && Contains(": nested deeper than an export is"));
    CHECK_THAT(refusal_with("\"K07\"", "[" + bomb + std::string(200001, ']')),
               StartsWith("candidates[0].candidate[0][0][0]") &&
                   Contains(": nested deeper than an export is"));
}

TEST_CASE("candidates that are no objects are refused, each at its place") {
    const Json kept = example_json();
    for (const Json& other : {Json(1), Json("K07"), Json(nullptr), Json::array({kept["candidates"][0]})}) {
        Json json = kept;
        json["candidates"].push_back(other);
        CHECK_THAT(refusal(json), Contains("candidates[" + std::to_string(kept["candidates"].size()) +
                                           "]: an object is expected"));
        json["candidates"] = other;
        if (!other.is_array())
            CHECK_THAT(refusal(json), StartsWith("candidates: a list is expected"));
    }
}

TEST_CASE("more values than any export has are refused") {
    const std::string text = R"({"papers": [0, {"a": "b"}], "candidates": [{"a": 0}, {"a": [1, 2]}]})";
    const PartlyReadJson read = read_json(text, "candidates", {}, 8);
    CHECK(read.root.dump() == R"({"papers":[0,{"a":"b"}],"candidates":[null,null]})");
    REQUIRE(read.left == std::vector<std::string_view>{R"({"a": 0})", R"({"a": [1, 2]})"});
    const auto why = [&](std::size_t values) {
        return refusal_of([&] { read_json(text, "candidates", {}, values); });
    };
    CHECK_THAT(why(7), StartsWith("candidates: there are more values than any export has"));
    CHECK_THAT(why(4), StartsWith("papers[1]: there are more values"));
}

TEST_CASE("an object with too many keys is refused") {
    std::string keys;
    for (int i = 0; i < 501; ++i)
        keys += (i > 0 ? ", \"k" : "\"k") + std::to_string(i) + "\": 1";
    CHECK_THAT(refusal_with("\"2\": \"2026-11-20\"", keys),
               StartsWith("candidates[0].sittings[0].kept_days: more than 500 keys"));
}

TEST_CASE("a file that is not an export is named as such") {
    for (const char* text : {"[]", "{}", "1", "null", R"({"format": "inkturn export"})", R"({"version": 1})",
                             R"({"format": "another", "version": 1})"})
        CHECK_THAT(refusal_of_text(text), StartsWith("this is not an export of inkturn"));
    CHECK_THAT(refusal_of_text(R"({"format": 1, "version": 1})"), StartsWith("format: text is expected"));
}

TEST_CASE("an export of a newer version is named as such before anything else") {
    CHECK_THAT(
        refusal_of_text(R"({"format": "inkturn export", "version": 3, "more": []})"),
        StartsWith("the export has version 3, written by a newer inkturn; this one reads versions 1 to 2"));
    for (const char* version :
         {"0", "-1", "1.0", "\"1\"", "null", "99999999999999999999", "18446744073709551615", "4294967297"})
        CHECK_THAT(refusal_with("\"version\": 2", "\"version\": " + std::string(version)),
                   StartsWith("version: a whole number"));
}

TEST_CASE("an unknown key is refused, since what it says would be lost") {
    for (const auto& [pointer, path] :
         {std::pair{"/more", "more"}, std::pair{"/papers/1/more", "papers[1].more"},
          std::pair{"/papers/0/parts/2/more", "papers[0].parts[2].more"},
          std::pair{"/candidates/1/more", "candidates[1].more"},
          std::pair{"/candidates/0/availability/more", "candidates[0].availability.more"},
          std::pair{"/candidates/0/availability/week_seconds/more",
                    "candidates[0].availability.week_seconds.more"},
          std::pair{"/candidates/0/availability/dates/0/more", "candidates[0].availability.dates[0].more"},
          std::pair{"/candidates/0/sittings/0/more", "candidates[0].sittings[0].more"},
          std::pair{"/candidates/0/sittings/0/reattempts/1/more",
                    "candidates[0].sittings[0].reattempts[1].more"},
          std::pair{"/candidates/0/sittings/0/clock/1/more", "candidates[0].sittings[0].clock[1].more"},
          std::pair{"/candidates/0/scripts/0/more", "candidates[0].scripts[0].more"},
          std::pair{"/candidates/0/scripts/1/retry/more", "candidates[0].scripts[1].retry.more"},
          std::pair{"/exams/1/more", "exams[1].more"}}) {
        Json json = example_json();
        json[Json::json_pointer(pointer)] = 1;
        CHECK_THAT(refusal(json), StartsWith(path + std::string(": the key is unknown")));
    }
}

TEST_CASE("each key of an export is of its type, and all but two and the weekdays are required") {
    const Json json = example_json();
    std::size_t keys = 0;
    for (const char* pointer :
         {"", "/papers/1", "/papers/0/parts/2", "/candidates/0", "/candidates/0/availability",
          "/candidates/0/availability/week_seconds", "/candidates/0/availability/dates/0",
          "/candidates/0/sittings/0", "/candidates/0/sittings/0/reattempts/1", "/candidates/0/scripts/0",
          "/candidates/0/scripts/1/retry", "/exams/1"})
        for (const auto& [key, value] : json.at(Json::json_pointer(pointer)).items()) {
            CAPTURE(pointer, key);
            ++keys;
            if (key == "scripts" || (pointer == sitting && key == "clock") ||
                ends_with(pointer, "week_seconds"))
                CHECK(refusal_without(pointer, key).empty());
            else if (key != "format" && key != "version")
                CHECK_THAT(refusal_without(pointer, key), Contains("the key " + key + " is missing"));
            const std::string path = pointer + ("/" + key);
            CHECK_THAT(refusal_at(path, true), Contains(key + ": ") && Contains(" is expected"));
            CHECK_THAT(refusal_at(path, value.is_string() ? Json(7) : Json("7")),
                       Contains(key + ": ") && Contains(" is expected"));
        }
    CHECK(keys == 55);
}

TEST_CASE("what is wrong in a paper is refused at its place") {
    CHECK_THAT(refusal_at("/papers/1/paper", "Pure 1"), StartsWith("papers[1]: paper id 'Pure 1'"));
    CHECK_THAT(refusal_at("/papers/1/paper", "drill-3"),
               StartsWith("papers[1]: paper drill-3 appears twice"));
    CHECK_THAT(refusal_at("/papers/1/title", "a\nb"), StartsWith("papers[1]: title: no line breaks"));
    CHECK_THAT(refusal_at("/papers/1/duration_seconds", 59), StartsWith("papers[1]: paper pure-1: a stated"));
    CHECK_THAT(refusal_at("/papers/1/duration_seconds", -1),
               StartsWith("papers[1].duration_seconds: a whole number"));
    CHECK_THAT(refusal_at("/papers/1/retry_by", "topic"),
               StartsWith("papers[1].retry_by: 'topic' is neither"));
    CHECK_THAT(refusal_at("/papers/1/parts", Json::array()),
               StartsWith("papers[1]: paper pure-1: a paper has"));
    CHECK_THAT(refusal_at("/papers/0/parts/1/part", "seven"),
               StartsWith("papers[0].parts[1].part: 'seven' is not a part label"));
    CHECK_THAT(refusal_at("/papers/0/parts/1/part", "Q2 (a)"),
               StartsWith("papers[0].parts[1].part: 'Q2 (a)' is not the short form: write 2a"));
    CHECK_THAT(refusal_at("/papers/0/parts/1/part", "2b"), StartsWith("papers[0]: part 2b appears twice"));
    CHECK_THAT(refusal_at("/papers/0/parts/1/marks", 501),
               StartsWith("papers[0]: part 2a: a part has 1 to 500"));
    CHECK_THAT(refusal_at("/papers/0/parts/0/codes", "M1"),
               StartsWith("papers[0]: part 1: the codes M1 add up"));
    CHECK_THAT(refusal_at("/papers/0/parts/0/codes", "?"), StartsWith("papers[0]: '?' is not a mark code"));
}

TEST_CASE("what is wrong in a candidate is refused at its place") {
    CHECK_THAT(refusal_at("/candidates/1/candidate", " K08"),
               StartsWith("candidates[1].candidate: candidate ' K08'"));
    CHECK_THAT(refusal_at("/candidates/1/candidate", "K07"),
               StartsWith("candidates[1].candidate: candidate K07 appears twice"));
    CHECK_THAT(refusal_at("/candidates/0/classes/0", "12c"),
               StartsWith("candidates[0].classes[0]: class 12c is not among"));
    CHECK_THAT(refusal_at("/candidates/0/classes", {"12b", "12a", "12b"}),
               StartsWith("candidates[0].classes[2]: class 12b appears twice"));
    CHECK_THAT(refusal_at("/candidates/0/availability/week_seconds/sun", 86401),
               StartsWith("candidates[0].availability.week_seconds.sun: a whole number from 0 to 86400"));
    CHECK_THAT(refusal_at("/candidates/0/availability/dates/0/date", "24 Dec"),
               StartsWith("candidates[0].availability.dates[0].date: '24 Dec' is not a date"));
    Json twice = example_json();
    Json& dates = twice["candidates"][0]["availability"]["dates"];
    dates.push_back(Json(dates[0]));
    CHECK_THAT(refusal(twice), StartsWith("candidates[0].availability.dates[1]: 2026-12-24 appears twice"));
}

TEST_CASE("what is wrong in an exam or a class is refused at its place") {
    CHECK_THAT(refusal_at("/exams/1/title", ""), StartsWith("exams[1]: an exam needs a title"));
    CHECK_THAT(refusal_at("/exams/1/date", "2027-02-29"),
               StartsWith("exams[1].date: '2027-02-29' is not in the calendar"));
    CHECK_THAT(refusal_at("/exams/1/subject", std::string(201, 'x')),
               StartsWith("exams[1]: the exam's subject"));
    CHECK_THAT(refusal_at("/exams/1", example_json()["exams"][0]),
               StartsWith("exams[1]: the exam appears twice"));
    CHECK_THAT(refusal_at("/classes/0", "12b"), StartsWith("classes[1]: class 12b appears twice"));
    CHECK_THAT(refusal_at("/classes/0", ""), StartsWith("classes[0]: class ''"));
}

TEST_CASE("what is wrong in a sitting is refused at its place") {
    const std::string at = "candidates[0].sittings[0]";
    CHECK_THAT(refusal_at(sitting + "/paper", "drill-4"),
               StartsWith(at + ".paper: paper drill-4 is not among the document's papers"));
    CHECK_THAT(refusal_at(sitting + "/date", "2026-11-26"),
               StartsWith(at + ".date: a sitting on 2026-11-26 is in the future"));
    CHECK_THAT(refusal_at(sitting + "/date", "today"), StartsWith(at + ".date: 'today' is not a date"));
    CHECK_THAT(refusal_at(sitting + "/extra_time", 101), StartsWith(at + ".extra_time: a whole number"));
    CHECK_THAT(refusal_at(sitting + "/marks/2b", "4"), StartsWith(at + ".marks.2b: marks '4': above"));
    CHECK_THAT(refusal_at(sitting + "/marks/2b", "2+2"), StartsWith(at + ".marks.2b: marks '2+2'"));
    CHECK_THAT(refusal_at(sitting + "/marks/2b", "2:tired"), StartsWith(at + ".marks.2b: marks '2:tired'"));
    CHECK_THAT(refusal_at(sitting + "/marks/2b", ""), StartsWith(at + ".marks.2b: marks ''"));
    CHECK_THAT(refusal_at(sitting + "/marks/1", "3:1010"),
               StartsWith(at + ".marks.1: marks '3:1010': 1010 earns 2"));
    CHECK_THAT(
        refusal_at(sitting + "/marks/1", "3:11100"),
        StartsWith(at + ".marks.1: marks '3:11100': after the last colon give a reason, or 0 or 1 for each"));
    CHECK_THAT(refusal_at(sitting + "/marks/2b", "1:1"),
               StartsWith(at + ".marks.2b: marks '1:1': the part has no codes on file"));
    CHECK_THAT(refusal_without(sitting + "/marks", "2b"), StartsWith(at + ".marks: no marks for part 2b"));
    CHECK_THAT(refusal_with("\"2b\": \"2", "\"2c\": \"2"),
               StartsWith(at + ".marks.2c: paper drill-3 has no"));
    CHECK_THAT(refusal_at(sitting + "/kept_days", {{"1", "2026-11-20"}}),
               StartsWith(at + ".kept_days.1: question 1 is not open"));
    CHECK_THAT(refusal_at(sitting + "/kept_days", {{"2a", "2026-11-20"}}),
               StartsWith(at + ".kept_days.2a: paper drill-3 has no question 2a"));
    CHECK_THAT(refusal_at(sitting + "/kept_days/2", "20.11."),
               StartsWith(at + ".kept_days.2: '20.11.' is not a date"));
    Json twice = example_json();
    Json& sittings = twice["candidates"][0]["sittings"];
    sittings.push_back(Json(sittings[0]));
    CHECK_THAT(refusal(twice),
               StartsWith("candidates[0].sittings[1]: candidate K07 has another sitting of drill-3"));
}

TEST_CASE("what is wrong in a re-attempt is refused at its place") {
    const std::string at = "candidates[0].sittings[0].reattempts";
    const std::string reattempts = sitting + "/reattempts";
    CHECK_THAT(refusal_at(reattempts + "/0/question", "3"),
               StartsWith(at + "[0].question: paper drill-3 has no question 3"));
    CHECK_THAT(refusal_at(reattempts + "/0/question", "1"),
               StartsWith(at + "[0].marks.2a: the part does not belong"));
    CHECK_THAT(refusal_at(reattempts + "/0",
                          {{"question", "1"}, {"turn", 1}, {"date", "2026-10-17"}, {"marks", {{"1", "4"}}}}),
               StartsWith(at + "[0]: turn 1 of question 1: the sitting did not miss the question"));
    CHECK_THAT(refusal_at(reattempts + "/1/turn", 3),
               StartsWith(at + "[1]: turn 3 of question 2: turn 2 comes next"));
    CHECK_THAT(refusal_at(reattempts + "/1/turn", 1),
               StartsWith(at + "[1]: turn 1 of question 2: turn 2 comes next"));
    CHECK_THAT(refusal_at(reattempts + "/0/turn", 2),
               StartsWith(at + "[0]: turn 2 of question 2: turn 1 comes next"));
    CHECK_THAT(refusal_at(reattempts + "/0/turn", 0), StartsWith(at + "[0].turn: a whole number"));
    CHECK_THAT(refusal_at(reattempts + "/0/turn", 10000), StartsWith(at + "[0].turn: a whole number"));
    CHECK_THAT(refusal_at(reattempts + "/0/marks/2b", "3"),
               StartsWith(at + "[1]: turn 2 of question 2: the question was secured before"));
    CHECK_THAT(
        refusal_at(reattempts + "/0/date", "2026-09-30"),
        StartsWith(at + "[0]: turn 1 of question 2 on 2026-09-30: the question was missed on 2026-10-01"));
    CHECK_THAT(
        refusal_at(reattempts + "/1/date", "2026-10-16"),
        StartsWith(at + "[1]: turn 2 of question 2 on 2026-10-16: the question was missed on 2026-10-17"));
    CHECK_THAT(refusal_at(reattempts + "/1/date", "2026-11-26"),
               StartsWith(at + "[1].date: a re-attempt on 2026-11-26 is in the future"));
    CHECK_THAT(refusal_without(reattempts + "/0/marks", "2a"),
               StartsWith(at + "[0].marks: no marks for part 2a"));
    CHECK_THAT(refusal_at(reattempts + "/0/marks/2a", "9"), StartsWith(at + "[0].marks.2a: marks '9'"));
}

TEST_CASE("a damaged export is read or refused, never anything else") {
    Random random(1);
    std::size_t refused = 0;
    for (int round = 0; round < 4000; ++round) {
        std::string text = example();
        for (int damage = 1 + random.below(3); damage > 0; --damage) {
            const auto at = static_cast<std::size_t>(random.below(static_cast<int>(text.size())));
            const auto length = static_cast<std::size_t>(random.below(12));
            switch (random.below(3)) {
            case 0:
                text[at] = static_cast<char>(random.below(256));
                break;
            case 1:
                text.erase(at, length);
                break;
            default:
                text.insert(at, text.substr(static_cast<std::size_t>(random.below(1000)), length));
            }
        }
        CAPTURE(text);
        try {
            const std::string written = to_text(read_text(text));
            CHECK(to_text(read_text(written)) == written);
        } catch (const Error&) {
            ++refused;
        }
    }
    CHECK(refused > 2000);
}

TEST_CASE("what a document sets for a class names one of its classes, once") {
    Json json = example_json();
    json["exams"][0]["class"] = "9z";
    CHECK_THAT(refusal(json), StartsWith("exams[0].class: class 9z is not among the document's classes"));

    json = example_json();
    const Json times{{"week_seconds", {{"mon", 600}}}, {"dates", Json::array()}};
    json["class_times"] = Json::array({Json{{"class", "9z"}, {"times", times}}});
    CHECK_THAT(refusal(json), StartsWith("class_times[0].class: class 9z is not among"));
    json["class_times"][0]["class"] = json["classes"][0];
    CHECK_NOTHROW(read(json));
    json["class_times"].push_back(json["class_times"][0]);
    CHECK_THAT(refusal(json), StartsWith("class_times[1].class: class "));
    json["class_times"] = Json::array({Json{{"class", json["classes"][0]}, {"times", nullptr}}});
    CHECK_THAT(refusal(json), StartsWith("class_times[0].times: no time is set"));
}
