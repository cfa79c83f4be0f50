#include "inkturn/practice/question_set.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"

#include <memory>
#include <random>
#include <string>
#include <tuple>
#include <vector>

namespace {

using namespace inkturn;
using test::pick;

using PaperPtr = std::shared_ptr<const Paper>;

constexpr Day today{date::year{2026} / date::November / 25};

PaperPtr paper(const std::string& id, std::vector<Part> parts, const std::string& subject = "pure",
               std::optional<Seconds> duration = {}) {
    return std::make_shared<const Paper>(PaperHead{id, "", subject, duration}, std::move(parts));
}

/// Vectors of 5 marks; series of 6 with 2 on vectors; none stated, of 4.
PaperPtr pure(const std::string& id) {
    return paper(id, {{"1", Marks(5), "vectors", ""},
                      {"2a", Marks(2), "vectors", ""},
                      {"2b", Marks(4), "series", ""},
                      {"3", Marks(4), "", ""}});
}

std::string text(const std::vector<SetQuestion>& questions) {
    std::string all;
    for (const SetQuestion& question : questions)
        all += (all.empty() ? "" : ", ") + question.drawable.paper->id() + " q" +
               question.drawable.paper_question().label;
    return all;
}

std::string stocked(const std::vector<PaperPtr>& papers, const SetFrom& from,
                    const std::vector<Copies>& copies = {}) {
    return text(set_stock(papers, copies, from).questions);
}

SetFrom on(std::vector<std::string> topics) {
    SetFrom from;
    from.topics = std::move(topics);
    return from;
}

} // namespace

TEST_CASE("a set is made from every question with a part on one of the topics, topic by topic") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b")};
    CHECK(stocked(papers, on({"vectors"})) == "a q1, a q2, b q1, b q2");
    CHECK(stocked(papers, on({"series", "vectors"})) == "a q2, b q2, a q1, b q1");
    CHECK(stocked(papers, on({})) == "a q1, a q2, a q3, b q1, b q2, b q3");
}

TEST_CASE("marks on the topics are those of the parts that state one of them") {
    const SetStock stock = set_stock({pure("a")}, {}, on({"vectors"}));
    REQUIRE(stock.questions.size() == 2);
    CHECK(stock.questions[0].on_topics == Marks(5));
    CHECK(stock.questions[1].on_topics == Marks(2));
}

TEST_CASE("only the subject's papers and those that are named are drawn from") {
    const std::vector<PaperPtr> papers{pure("a"), pure("b"),
                                       paper("m", {{"1", Marks(5), "vectors", ""}}, "mechanics")};
    SetFrom from = on({"vectors"});
    from.subject = "mechanics";
    CHECK(stocked(papers, from) == "m q1");
    from.subject = "";
    from.papers = std::set<std::string>{"b"};
    CHECK(stocked(papers, from) == "b q1, b q2");
    from.papers = std::set<std::string>{};
    CHECK(stocked(papers, from).empty());
}

TEST_CASE("what was met, printed before or is kept unseen is left out with all its copies, and counted") {
    const PaperPtr drawn = paper("drawn", {{"1", Marks(5), "vectors", ""}, {"2", Marks(6), "vectors", ""}});
    const std::vector<PaperPtr> papers{pure("a"), pure("b"), drawn};
    const std::vector<Copies> copies{{{"a", "1"}, {"drawn", "1"}}, {{"b", "2"}, {"drawn", "2"}}};
    CHECK(stocked(papers, on({"vectors"}), copies) == "a q1, a q2, b q1, b q2");

    SetFrom met = on({"vectors"});
    met.met = {{"drawn", "1"}};
    SetStock stock = set_stock(papers, copies, met);
    CHECK(text(stock.questions) == "a q2, b q1, b q2");
    CHECK(stock.met == 1);

    SetFrom printed = on({"vectors"});
    printed.printed = questions_of(papers, {"drawn"});
    stock = set_stock(papers, copies, printed);
    CHECK(text(stock.questions) == "a q2, b q1");
    CHECK(stock.printed == 2);

    SetFrom kept = on({"vectors"});
    kept.kept_unseen = {"drawn"};
    stock = set_stock(papers, copies, kept);
    CHECK(text(stock.questions) == "a q2, b q1");
    CHECK(stock.kept_unseen == 2);
    kept.kept_unseen = {"b"};
    stock = set_stock(papers, copies, kept);
    CHECK(text(stock.questions) == "a q1, a q2");
    CHECK(stock.kept_unseen == 2);
}

TEST_CASE("a question that was sat, retried or is on the desk was met") {
    const PaperPtr a = pure("a");
    Candidate candidate;
    candidate.sittings.push_back({SittingId{1}, a, {today, {}, parse_line(*a, "5 2 0 -")}, {}});
    CHECK(questions_met(candidate, {}) == std::set<QuestionName>{{"a", "1"}, {"a", "2"}, {"a", "3"}});
    Script script = blank_script("me", pure("b"), today, {});
    script.positions = {0};
    CHECK(questions_met({}, {script}) == std::set<QuestionName>{{"b", "1"}});
}

TEST_CASE("what waits as a retry of who makes the set is left out, and counted") {
    const PaperPtr a = pure("a");
    Candidate candidate;
    candidate.sittings.push_back({SittingId{1}, a, {today, {}, parse_line(*a, "5 2 0 -")}, {}});
    SetFrom from = on({"vectors"});
    from.waiting = questions_waiting(candidate);
    CHECK(from.waiting == std::set<QuestionName>{{"a", "2"}, {"a", "3"}});
    const SetStock stock = set_stock({a, pure("b")}, {}, from);
    CHECK(text(stock.questions) == "a q1, b q1, b q2");
    CHECK(stock.waiting == 1);
}

TEST_CASE(
    "papers that a plan keeps for a whole sitting are drawn from where others do not do as well, and named") {
    SetFrom from = on({"vectors"});
    from.to_sit = {"a"};
    const SetStock stock = set_stock({pure("a"), pure("b")}, {}, from);
    CHECK(text(choose_set(stock, {Marks(5), {}})) == "b q1");
    CHECK(text(choose_set(stock, {Marks(10), {}})) == "a q1, b q1");
    REQUIRE(text(stock.questions) == "a q1, a q2, b q1, b q2");
    CHECK(stock.questions[1].drawable.to_sit == "a");
    CHECK(stock.questions[2].drawable.to_sit.empty());
}

TEST_CASE("a question is in a paper that is to be sat where a copy of it is") {
    SetFrom from = on({"vectors"});
    from.to_sit = {"drawn"};
    const std::vector<PaperPtr> papers{pure("a"), pure("b"),
                                       paper("drawn", {{"1", Marks(5), "vectors", ""}})};
    const SetStock stock = set_stock(papers, {{{"a", "1"}, {"drawn", "1"}}}, from);
    CHECK(stock.questions[0].drawable.to_sit == "drawn");
    CHECK(text(choose_set(stock, {Marks(5), {}})) == "b q1");
}

TEST_CASE("without its sittings of drawn papers a candidate has those of whole ones") {
    const PaperPtr a = pure("a");
    const PaperPtr drawn = paper("drawn", {{"1", Marks(5), "", ""}});
    Candidate candidate;
    candidate.sittings.push_back({SittingId{1}, a, {today, {}, parse_line(*a, "5 2 0 -")}, {}});
    candidate.sittings.push_back({SittingId{2}, drawn, {today, {}, parse_line(*drawn, "5")}, {}});
    const Candidate whole = without_drawn_papers(candidate, {{{"a", "1"}, {"drawn", "1"}}});
    REQUIRE(whole.sittings.size() == 1);
    CHECK(whole.sittings[0].paper->id() == "a");
}

TEST_CASE("where a question came from is told through its copies, and a paper of copies alone was drawn") {
    const std::vector<Copies> copies{{{"a", "1"}, {"drawn", "1"}}, {{"b", "2"}, {"drawn", "2"}}};
    CHECK(source_of(copies, {"drawn", "2"}) == QuestionName{"b", "2"});
    CHECK(source_of(copies, {"b", "3"}) == QuestionName{"b", "3"});
    const PaperPtr drawn = paper("drawn", {{"1", Marks(5), "", ""}, {"2", Marks(6), "", ""}});
    CHECK(drawn_papers({pure("a"), drawn}, copies) == std::set<std::string>{"drawn"});
    CHECK(drawn_papers({pure("a"), drawn}, {copies.front()}).empty());
}

namespace {

/// A bank of one-question papers.
std::vector<PaperPtr> bank_of(int questions, std::mt19937& dice) {
    std::vector<PaperPtr> papers;
    for (int i = 0; i < questions; ++i) {
        const int on_topic = pick(dice, 1, 6);
        std::vector<Part> parts{{"1a", Marks(on_topic), "vectors", ""}};
        if (pick(dice, 0, 1) == 1)
            parts.push_back({"1b", Marks(pick(dice, 1, 6)), "series", ""});
        papers.push_back(
            paper("p" + std::to_string(100 + i), std::move(parts), "pure",
                  pick(dice, 0, 2) == 0 ? std::optional(Seconds(pick(dice, 60, 900))) : std::nullopt));
    }
    return papers;
}

/// What speaks for a choice: its marks or its time, and how much of it is on the topics, in millionths, part
/// by part rounded down.
std::tuple<std::int64_t, std::int64_t> worth(const std::vector<SetQuestion>& chosen, const SetSize& size) {
    std::int64_t sum = 0;
    std::int64_t on_topics = 0;
    for (const SetQuestion& question : chosen) {
        const std::int64_t marks = question.drawable.paper_question().marks.count();
        const std::int64_t one = size.time ? question.drawable.allowance.count() : marks;
        sum += one;
        on_topics += one * (1'000'000 * question.on_topics.count() / marks);
    }
    return {sum, on_topics};
}

/// The best of all choices; of equals the one that takes the first question in which they differ.
std::vector<SetQuestion> by_trying_all(const SetStock& stock, const SetSize& size) {
    const std::int64_t most = size.time ? size.time->count() : size.marks->count();
    std::vector<SetQuestion> best;
    for (std::size_t choice = std::size_t{1} << stock.questions.size(); choice-- > 0;) {
        std::vector<SetQuestion> chosen;
        for (std::size_t i = 0; i < stock.questions.size(); ++i)
            if ((choice >> (stock.questions.size() - 1 - i) & 1U) != 0)
                chosen.push_back(stock.questions[i]);
        if (std::get<0>(worth(chosen, size)) <= most && worth(chosen, size) > worth(best, size))
            best = chosen;
    }
    return best;
}

} // namespace

TEST_CASE("on 200 small banks the set is the best of all choices, by marks and by time") {
    std::mt19937 dice(1919);
    for (int i = 0; i < 200; ++i) {
        const SetStock stock = set_stock(bank_of(pick(dice, 1, 9), dice), {}, on({"vectors"}));
        SetSize size;
        if (i % 2 == 0)
            size.marks = Marks(pick(dice, 1, 40));
        else
            size.time = Seconds(pick(dice, 60, 2400));
        CAPTURE(i);
        CHECK(text(choose_set(stock, size)) == text(by_trying_all(stock, size)));
    }
}

TEST_CASE("of choices that fill the marks alike the one with most marks on the topics is taken") {
    const std::vector<PaperPtr> papers{
        paper("a", {{"1a", Marks(2), "vectors", ""}, {"1b", Marks(3), "", ""}}),
        paper("b", {{"1", Marks(5), "vectors", ""}}), paper("c", {{"1", Marks(5), "vectors", ""}})};
    const SetStock stock = set_stock(papers, {}, on({"vectors"}));
    CHECK(text(choose_set(stock, {Marks(5), {}})) == "b q1");
    CHECK(text(choose_set(stock, {Marks(14), {}})) == "b q1, c q1");
    CHECK(text(choose_set(stock, {Marks(15), {}})) == "a q1, b q1, c q1");
    CHECK(choose_set(stock, {Marks(4), {}}).empty());
    CHECK(text(choose_set(stock, {})) == "a q1, b q1, c q1");
}

TEST_CASE("a set from 10,000 questions is as good as one from those that could be in it") {
    std::mt19937 dice(7);
    const std::vector<PaperPtr> papers = bank_of(10'000, dice);
    const SetStock stock = set_stock(papers, {}, on({"vectors"}));
    CHECK(stock.questions.size() == 10'000);
    const std::vector<SetQuestion> chosen = choose_set(stock, {{}, std::chrono::minutes{45}});
    std::int64_t sum = 0;
    std::int64_t off_topic = 0;
    for (const SetQuestion& question : chosen) {
        sum += question.drawable.allowance.count();
        off_topic += (question.drawable.paper_question().marks - question.on_topics).count();
    }
    CHECK(sum == 45 * 60);
    CHECK(off_topic == 0);
}
