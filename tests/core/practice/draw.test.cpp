#include "inkturn/practice/draw.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/allowance.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;

using PaperPtr = std::shared_ptr<const Paper>;

constexpr Day today{date::year{2026} / date::November / 25};

PaperPtr paper(const std::string& id, std::vector<Part> parts, RetryBy by = RetryBy::question,
               std::optional<Seconds> duration = {}, const std::string& subject = "pure") {
    return std::make_shared<const Paper>(PaperHead{id, "", subject, duration, by}, std::move(parts));
}

/// Three questions: vectors; series with a part on vectors; none stated.
PaperPtr pure(const std::string& id, RetryBy by = RetryBy::question) {
    return paper(id,
                 {{"1", Marks(5), "vectors", ""},
                  {"2a", Marks(2), "vectors", "M1 A1"},
                  {"2b", Marks(6), "series", ""},
                  {"3", Marks(4), "", ""}},
                 by);
}

SittingRecord sat(int id, const PaperPtr& of, int days_ago, const std::string& line) {
    return {SittingId{id}, of, {today - Days{days_ago}, {}, parse_line(*of, line)}, {}};
}

void retry(SittingRecord& record, const std::string& question, int turn, int days_ago,
           const std::string& line) {
    const std::size_t position = *record.paper->find_question(question);
    record.reattempts.push_back({question, turn, today - Days{days_ago},
                                 parse_line(*record.paper, record.paper->questions()[position].parts, line)});
}

Candidate candidate(std::vector<SittingRecord> sittings) {
    Candidate known;
    known.code = "me";
    known.sittings = std::move(sittings);
    return known;
}

std::string text(const Drawable& question) {
    return question.paper->id() + " q" + question.paper_question().label +
           (question.got_on ? " " + std::to_string((today - *question.got_on).count()) : "");
}

std::string text(const std::vector<Drawable>& questions) {
    std::string all;
    for (const Drawable& question : questions)
        all += (all.empty() ? "" : ", ") + text(question);
    return all;
}

Stock stock(const std::vector<PaperPtr>& papers, const Candidate& known,
            const std::vector<Copies>& copies = {}, const DrawFrom& from = {},
            const std::vector<Script>& desk = {}) {
    return drawable(papers, copies, known, desk, from, today);
}

std::string listed(const std::vector<PaperPtr>& papers, const Candidate& known,
                   const std::vector<Copies>& copies = {}, const DrawFrom& from = {}) {
    return text(stock(papers, known, copies, from).questions);
}

TopicDiagnosis topic(const std::string& name, double marks_a_paper) {
    TopicDiagnosis known{};
    known.topic = name;
    known.outlook = TopicOutlook{0.5, {0.4, 0.6}, 0.9, marks_a_paper, marks_a_paper / 5};
    return known;
}

const Copies copies_of_1{{"a", "1"}, {"b", "1"}};

} // namespace

TEST_CASE("the time to fill is from none to a day") {
    const Stock empty{};
    CHECK(draw(empty, {}, Seconds(0), today).empty());
    CHECK(draw(empty, {}, std::chrono::hours(24), today).empty());
    CHECK_THROWS_AS(draw(empty, {}, Seconds(-1), today), Error);
    Stock of_no_time = drawable({pure("a")}, {}, candidate({}), {}, {}, today);
    of_no_time.questions.front().allowance = Seconds(0);
    CHECK_THROWS_AS(draw(of_no_time, {}, Seconds(600), today), Error);
    CHECK_THROWS_AS(draw(empty, {}, std::chrono::hours(24) + Seconds(1), today), Error);
}

TEST_CASE("what was never sat may be drawn, in the order of papers and questions") {
    CHECK(listed({pure("a"), pure("b")}, candidate({})) == "a q1, a q2, a q3, b q1, b q2, b q3");
    CHECK(listed({pure("a", RetryBy::part)}, candidate({})) == "a q1, a q2a, a q2b, a q3");
}

TEST_CASE("a question that waits as a retry is not drawn, and one that was got long ago is") {
    const PaperPtr a = pure("a");
    SittingRecord record = sat(1, a, 90, "2 2 6 4");
    CHECK(listed({a}, candidate({record})) == "a q2 90, a q3 90");
    CHECK(stock({a}, candidate({record})).waiting == 1);
    retry(record, "1", 1, 60, "4");
    CHECK(listed({a}, candidate({record})) == "a q2 90, a q3 90");
    retry(record, "1", 2, 30, "5");
    CHECK(listed({a}, candidate({record})) == "a q1 30, a q2 90, a q3 90");
}

TEST_CASE("a question that missed too little to make a retry may be drawn") {
    const PaperPtr a = pure("a");
    Candidate known = candidate({sat(1, a, 90, "4 2 6 2")});
    known.wishes.retries = {Marks(2)};
    CHECK(listed({a}, known) == "a q1 90, a q2 90");
    CHECK(stock({a}, known).waiting == 1);
}

TEST_CASE("a drawn paper's parts are got at the share of the paper they come from") {
    const auto essay = std::make_shared<const Paper>(
        PaperHead{"essay", "", "", {}, RetryBy::question, GotAt(80)},
        std::vector<Part>{{"1", Marks(25), "", ""}, {"2", Marks(25), "", "", GotAt(60)}});
    const Paper drawn =
        drawn_paper({"d", "", "", {}, RetryBy::question}, stock({essay, pure("a")}, candidate({})).questions);
    CHECK_FALSE(drawn.got_at().has_value());
    CHECK(drawn.parts()[0].got_at == GotAt(80));
    CHECK(drawn.parts()[1].got_at == GotAt(60));
    CHECK_FALSE(drawn.parts()[2].got_at.has_value());
}

TEST_CASE("a part not attempted waits as a retry too") {
    const PaperPtr a = pure("a");
    CHECK(listed({a}, candidate({sat(1, a, 90, "5 2 - 4")})) == "a q1 90, a q3 90");
}

TEST_CASE("papers that are to be sat are drawn from where others do not do as well, and named") {
    const PaperPtr a = pure("a");
    const PaperPtr b = pure("b");
    DrawFrom from;
    from.to_sit = {"a", "made-up"};
    from.topics = {"series"};
    const Stock both = stock({a, b}, candidate({}), {}, from);
    REQUIRE(both.questions.size() == 2);
    CHECK(both.questions[0].to_sit == "a");
    CHECK(both.questions[1].to_sit.empty());
    const Seconds one = both.questions[0].allowance;
    CHECK(text(draw(both, {}, one, today)) == "b q2");
    CHECK(text(draw_questions(both, {}, 1)) == "b q2");
    CHECK(text(draw(both, {}, 2 * one, today)) == "a q2, b q2");
    CHECK(text(draw_questions(both, {}, 2)) == "b q2, a q2");
}

TEST_CASE("a copy of a question of a paper that is kept unseen is left alone too") {
    const PaperPtr a = pure("a");
    DrawFrom from;
    from.kept_unseen = {"a"};
    const Stock none = stock({a, pure("b")}, candidate({}), {copies_of_1}, from);
    CHECK(text(none.questions) == "b q2, b q3"); // its first question is a copy of one that is kept
    CHECK(none.kept_unseen == 3);
}

TEST_CASE("of unseen questions none was sat, in no copy either") {
    const PaperPtr a = pure("a");
    DrawFrom from;
    from.unseen = true;
    const Stock unseen = stock({a, pure("b"), pure("c")}, candidate({sat(1, a, 90, "5 2 6 4")}),
                               {{{"c", "2"}, {"a", "2"}}}, from);
    CHECK(text(unseen.questions) == "b q1, b q2, b q3, c q1, c q3");
    CHECK(unseen.seen == 3);
}

TEST_CASE("a question rests for 21 days after it was got") {
    const PaperPtr a = pure("a");
    CHECK(listed({a}, candidate({sat(1, a, 21, "5 2 6 4")})) == "a q1 21, a q2 21, a q3 21");
    const Stock resting = stock({a}, candidate({sat(1, a, 20, "5 2 6 4")}));
    CHECK(resting.questions.empty());
    CHECK(resting.recent == 3);
}

TEST_CASE("a later sitting of the paper says what waits, and any sitting when it was met last") {
    const PaperPtr a = pure("a");
    CHECK(listed({a}, candidate({sat(1, a, 90, "0 2 6 4"), sat(2, a, 40, "5 2 0 4")})) == "a q1 40, a q3 40");
}

TEST_CASE("what lies on the desk is not drawn") {
    const PaperPtr a = pure("a");
    const Script whole = blank_script("me", a, today, {});
    CHECK(stock({a, pure("b")}, candidate({}), {}, {}, {whole}).on_desk == 3);
    Script one = whole;
    one.positions = {1, 2};
    CHECK(text(stock({a}, candidate({}), {}, {}, {one}).questions) == "a q1, a q3");
}

TEST_CASE("questions met in a copy are counted by paper, of a drawn paper those met since it was drawn") {
    const PaperPtr a = pure("a");
    const std::vector<Copies> copies{{{"a", "1"}, {"d", "1"}, {"s", "1"}}, {{"a", "2"}, {"d", "2"}}};
    const auto met_with = [&](std::optional<Day> drawn, const Candidate& known,
                              const std::vector<Script>& desk = {}) {
        return questions_met_in_copies(copies, {{"d", drawn}}, known, desk);
    };
    const Candidate known = candidate({sat(1, a, 30, "5 2 6 4")});
    using Met = QuestionsMet;
    CHECK(met_with(today, candidate({})) == Met{});
    CHECK(met_with(today - Days{30}, known) == Met{{"a", 2}, {"d", 2}, {"s", 1}});
    CHECK(met_with(today - Days{29}, known) == Met{{"a", 2}, {"s", 1}});
    CHECK(met_with({}, known) == Met{{"a", 2}, {"s", 1}});
    CHECK(questions_met_in_copies({}, {}, known, {}) == Met{});
    const Script one = blank_script("me", a, today, {});
    CHECK(met_with(today, candidate({}), {one}) == Met{{"a", 2}, {"d", 2}, {"s", 1}});
}

TEST_CASE("a question and its copies are drawn once, as the first of them") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b")};
    CHECK(listed(papers, candidate({}), {copies_of_1}) == "a q1, a q2, a q3, b q2, b q3");
}

TEST_CASE("a question sat in a copy counts as sat where it came from, and the reverse") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b")};
    CHECK(listed(papers, candidate({sat(1, papers[1], 50, "5 2 6 4")}), {copies_of_1}) ==
          "a q1 50, a q2, a q3, b q2 50, b q3 50");
    CHECK(listed(papers, candidate({sat(1, papers[0], 50, "5 2 6 4")}), {copies_of_1}) ==
          "a q1 50, a q2 50, a q3 50, b q2, b q3");
    CHECK(listed(papers, candidate({sat(1, papers[1], 50, "3 2 6 4")}), {copies_of_1}) ==
          "a q2, a q3, b q2 50, b q3 50");
    SittingRecord got_since = sat(1, papers[1], 70, "3 2 6 4");
    retry(got_since, "1", 1, 50, "5");
    CHECK(listed(papers, candidate({got_since}), {copies_of_1}) == "a q1 50, a q2, a q3, b q2 70, b q3 70");
    // Missed in one of them, it waits, though it was got in the other.
    CHECK(listed(papers, candidate({sat(1, papers[0], 90, "3 2 6 4"), sat(2, papers[1], 50, "5 2 6 4")}),
                 {copies_of_1}) == "a q2 90, a q3 90, b q2 50, b q3 50");
}

TEST_CASE(
    "a question counts for a topic that one of its parts states, under the one with most of its marks") {
    const std::vector<PaperPtr> papers{pure("a")};
    const Stock on_vectors = stock(papers, candidate({}), {}, {{"vectors"}, ""});
    CHECK(text(on_vectors.questions) == "a q1, a q2");
    CHECK(on_vectors.questions[1].topic == "vectors");
    CHECK(stock(papers, candidate({}), {}, {{"vectors", "series"}, ""}).questions[1].topic == "series");
    const Stock all = stock(papers, candidate({}));
    CHECK(all.questions[1].topic == "series");
    CHECK(all.questions[2].topic.empty());
    const PaperPtr even = paper("even", {{"1a", Marks(3), "vectors", ""}, {"1b", Marks(3), "series", ""}});
    CHECK(stock({even}, candidate({})).questions[0].topic == "vectors");
}

TEST_CASE("a subject leaves out the papers of others") {
    const PaperPtr other = paper("m", {{"1", Marks(5), "vectors", ""}}, RetryBy::question, {}, "mechanics");
    CHECK(listed({pure("a"), other}, candidate({}), {}, {{}, "mechanics"}) == "m q1");
}

TEST_CASE("allowances are by each paper's rule, and what has no time can't be drawn") {
    const PaperPtr hurried =
        paper("h", {{"1", Marks(1), "", ""}, {"2", Marks(500), "", ""}}, RetryBy::question, Seconds(60));
    const Stock known = stock({pure("a"), hurried}, candidate({}));
    REQUIRE(known.questions.size() == 4);
    CHECK(known.questions[0].allowance == Seconds(360));
    CHECK(known.questions[3].allowance == Seconds(60));
}

TEST_CASE("topics of which nothing is known come first, then those that cost most, and none stated last") {
    TopicDiagnosis without_outlook = topic("seen", 0);
    without_outlook.outlook.reset();
    const std::vector<TopicDiagnosis> known{topic("even", 2.5), topic("half", 2.5), topic("weak", 4),
                                            topic("firm", 0),   topic("nil", 6),    without_outlook};
    CHECK(weakest_first({"half", "", "even", "weak", "firm", "nil", "seen", "new", "half"}, known) ==
          std::vector<std::string>{"new", "seen", "nil", "weak", "even", "half", "firm", ""});
}

TEST_CASE("of a topic of two subjects the one that costs more counts") {
    CHECK(weakest_first({"a", "b"}, {topic("a", 1), topic("b", 2), topic("a", 3)}) ==
          std::vector<std::string>{"a", "b"});
    CHECK(weakest_first({"a", "b"}, {topic("a", 3), topic("b", 2), topic("a", 1)}) ==
          std::vector<std::string>{"a", "b"});
}

TEST_CASE("a drawn paper is by topic, weakest first, and then in the order of the papers") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b")};
    const std::vector<TopicDiagnosis> known{topic("vectors", 1), topic("series", 8)};
    const Stock all = stock(papers, candidate({}));
    CHECK(text(draw(all, known, std::chrono::minutes{60}, today)) == "a q2, b q2, a q1, b q1, a q3, b q3");
    CHECK(text(draw(all, known, Seconds(72 * 8), today)) == "a q2");
    CHECK(text(draw(all, known, Seconds(72 * 5), today)) == "a q1");
    CHECK(draw(all, known, Seconds(72 * 3), today).empty());
}

TEST_CASE("topics that cost as much weigh alike, so that among them the order of the papers decides") {
    const PaperPtr a = paper("a", {{"1", Marks(5), "vectors", ""}, {"2", Marks(5), "series", ""}});
    const Stock all = stock({a}, candidate({}));
    CHECK(text(draw(all, {}, Seconds(360), today)) == "a q1");
    CHECK(text(draw(all, {topic("vectors", 2), topic("series", 2)}, Seconds(360), today)) == "a q1");
    CHECK(text(draw(all, {topic("vectors", 2), topic("series", 2.5)}, Seconds(360), today)) == "a q2");
    CHECK(text(draw(all, {}, Seconds(720), today)) == "a q2, a q1");
}

TEST_CASE("what was never sat is drawn before what was got, and what was got longest ago before the rest") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b"), pure("c")};
    const Stock known =
        stock(papers, candidate({sat(1, papers[0], 30, "5 2 6 4"), sat(2, papers[1], 60, "5 2 6 4")}));
    CHECK(text(draw(known, {}, Seconds(72 * 8), today)) == "c q2");
    CHECK(text(draw(known, {}, Seconds(72 * 16), today)) == "c q2, b q3 60, c q3");
}

TEST_CASE("extra time leaves less of the minutes for the questions' own allowances") {
    CHECK(without_extra(Seconds(2700), ExtraTime(25)) == Seconds(2160));
    CHECK(without_extra(Seconds(2700), ExtraTime()) == Seconds(2700));
    CHECK(without_extra(Seconds(100), ExtraTime(33)) == Seconds(75));
    for (int percent = 0; percent <= ExtraTime::max_percent; ++percent)
        for (int minutes = 5; minutes <= 90; minutes += 5) {
            const ExtraTime extra(percent);
            const Seconds time = std::chrono::minutes{minutes};
            const Seconds most = without_extra(time, extra);
            const auto with = [&](Seconds length) {
                return allowance(*paper("p", {{"1", Marks(1), "", ""}}, RetryBy::question, length), extra);
            };
            CAPTURE(percent, minutes);
            CHECK(with(most) <= time);
            CHECK(with(most + Seconds(1)) >= time);
        }
}

TEST_CASE("a drawn paper numbers its questions from 1 and keeps parts, topics and codes") {
    const Stock all = stock({pure("a")}, candidate({}));
    const Paper drawn =
        drawn_paper({"d", "Practice", "pure", {}, RetryBy::part}, {all.questions[1], all.questions[0]});
    REQUIRE(drawn.parts().size() == 3);
    CHECK(drawn.parts()[0].label == "1a");
    CHECK(drawn.parts()[0].codes == "M1 A1");
    CHECK(drawn.parts()[0].topic == "vectors");
    CHECK(drawn.parts()[1].label == "1b");
    CHECK(drawn.parts()[2].label == "2");
    CHECK(drawn.questions().size() == 2);
    CHECK(drawn.title() == "Practice");
    CHECK(drawn.retry_by() == RetryBy::question);
    CHECK_FALSE(drawn.duration());
}

TEST_CASE("a part of a paper that retries by part is drawn as a question of its own") {
    const Stock all = stock({pure("a", RetryBy::part)}, candidate({}));
    const Paper drawn =
        drawn_paper({"d", "", "", {}, RetryBy::question}, {all.questions[1], all.questions[2]});
    REQUIRE(drawn.parts().size() == 2);
    CHECK(drawn.parts()[0].label == "1");
    CHECK(drawn.parts()[1].label == "2");
}

TEST_CASE("a drawn paper states its duration where a question has not 72 s a mark") {
    const PaperPtr slow =
        paper("s", {{"1", Marks(5), "", ""}, {"2", Marks(5), "", ""}}, RetryBy::question, Seconds(1001));
    const Stock all = stock({pure("a"), slow}, candidate({}));
    const Paper drawn = drawn_paper({"d", "", "", {}, RetryBy::question}, all.questions);
    CHECK(drawn.duration() == Seconds(17 * 72 + 1001));
    const PaperPtr stated = paper("r", {{"1", Marks(5), "", ""}}, RetryBy::question, Seconds(360));
    CHECK_FALSE(drawn_paper({"d", "", "", {}, RetryBy::question}, stock({stated}, candidate({})).questions)
                    .duration());
}

TEST_CASE("each drawn part has the allowance that it has where it came from, also with extra time") {
    const PaperPtr slow =
        paper("s", {{"1", Marks(5), "", ""}, {"2", Marks(5), "", ""}}, RetryBy::question, Seconds(1001));
    const PaperPtr usual = paper("u", {{"1", Marks(5), "", ""}});
    const Stock all = stock({usual, slow}, candidate({}));
    const Paper drawn = drawn_paper({"d", "", "", {}, RetryBy::question}, all.questions);
    CHECK(part_allowances(drawn) == std::vector<Seconds>{Seconds(360), Seconds(501), Seconds(500)});
    CHECK(checkpoints(drawn, ExtraTime(50)) ==
          std::vector<Seconds>{Seconds(540), Seconds(1292), Seconds(2042)});
    CHECK(allowance(drawn, ExtraTime(50)) == Seconds(2042));
    CHECK(checkpoints(drawn, {false, true, false}, {}) ==
          std::vector<Seconds>{Seconds(0), Seconds(501), Seconds(501)});
}

TEST_CASE("more parts than a paper holds are refused with what to do") {
    std::vector<Part> parts;
    for (int i = 1; i <= 300; ++i)
        parts.push_back({std::to_string(i), Marks(1), "", ""});
    const Stock all = stock({paper("a", parts), paper("b", parts)}, candidate({}));
    CHECK_THROWS_WITH(drawn_paper({"d", "", "", {}, RetryBy::question}, all.questions),
                      Contains("600 parts") && Contains("ask for less"));
}

TEST_CASE("a paper that holds the questions drawn, or copies of them, is found until it was sat") {
    const PaperPtr a = pure("a");
    const PaperPtr b = paper("b", {{"1", Marks(5), "vectors", ""}});
    const std::vector<Drawable> first{stock({a}, candidate({})).questions.front()};
    CHECK(paper_with(first, {a, b}, {copies_of_1}, candidate({})) == "b");
    CHECK_FALSE(paper_with(first, {a, b}, {}, candidate({})));
    CHECK_FALSE(paper_with(first, {a, b}, {copies_of_1}, candidate({sat(1, b, 30, "5")})));
    const std::vector<Drawable> all = stock({a}, candidate({})).questions;
    CHECK_FALSE(paper_with(all, {b}, {copies_of_1}, candidate({})));
    CHECK(paper_with(all, {b, a}, {copies_of_1}, candidate({})) == "a");
}

TEST_CASE("so many questions are drawn in turn from each topic, those never sat first") {
    const std::vector<PaperPtr> papers{pure("pure-1"), pure("pure-2")};
    const Candidate known = candidate({sat(1, papers[0], 30, "5 2 6 4")});
    const Stock all = stock(papers, known, {}, {{"series", "vectors"}, "", false, {}});
    CHECK(text(draw_questions(all, {}, 3)) == "pure-2 q2, pure-2 q1, pure-1 q2 30");
    CHECK(draw_questions(all, {}, 9).size() == 4);
    CHECK(draw_questions({}, {}, 3).empty());
}

TEST_CASE("what several may be given together is what each of them may be given") {
    const std::vector<PaperPtr> papers{pure("pure-1"), pure("pure-2"), pure("pure-3")};
    const DrawFrom unseen{{"vectors"}, "", true, {}};
    const Stock one = stock(papers, candidate({sat(1, papers[0], 30, "5 2 6 4")}), {}, unseen);
    const Stock other = stock(papers, candidate({sat(1, papers[1], 30, "0 2 6 4")}), {}, unseen);
    CHECK(text(shared_stock({one, other}).questions) == "pure-3 q1, pure-3 q2");
    CHECK(text(shared_stock({one}).questions) == "pure-2 q1, pure-2 q2, pure-3 q1, pure-3 q2");
    CHECK(shared_stock({}).questions.empty());
}
