#include "inkturn/plan/rating.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "papers.hpp"
#include "refusal.hpp"

#include <algorithm>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

TopicRating rated(const std::string& topic, Understanding understanding, int on = 0) {
    return {"pure", topic, understanding, day(on)};
}

constexpr auto lost_on = Understanding::not_understood;
constexpr auto shaky = Understanding::shaky;
constexpr auto sure = Understanding::sure;

/// Nothing weak by marks.
TimetableRequest request_with(const std::vector<TopicRating>& ratings, int papers_on_file = 0) {
    TimetableRequest request;
    request.papers = papers(papers_on_file, "pure");
    request.weak = std::make_shared<const std::vector<WeakTopic>>();
    request.ratings = ratings;
    return request;
}

/// `check surds; relearn logs; relearn logs`: what it holds, all of it within seven days.
std::string text_of(const Timetable& timetable) {
    std::vector<std::string> texts;
    for (const WorkItem& item : timetable.items) {
        std::string what;
        if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
            what = topic->topic;
        else if (const auto* check = std::get_if<TopicToCheck>(&item.work))
            what = check->topic;
        else if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            what = name_of(*paper);
        texts.push_back(std::string(name(item.kind())) + (what.empty() ? "" : " ") + what);
        CHECK((item.day && *item.day < timetable.today + Days{7}));
    }
    std::sort(texts.begin(), texts.end());
    std::string text;
    for (const std::string& one : texts)
        text += (text.empty() ? "" : "; ") + one;
    return text;
}

std::vector<RatedTopic> of_integration(const Candidate& candidate, const std::vector<TopicRating>& ratings) {
    return rated_topics({{"pure", "integration"}}, candidate, ratings);
}

} // namespace

TEST_CASE("a rating is read by any beginning of its name") {
    CHECK(parse_understanding("n") == lost_on);
    CHECK(parse_understanding("Not-Understood") == lost_on);
    CHECK(parse_understanding("sh") == shaky);
    CHECK(parse_understanding("SURE") == sure);
    CHECK(refusal_of([] { parse_understanding("s"); }) != "");
    CHECK(refusal_of([] { parse_understanding(""); }) != "");
    CHECK(refusal_of([] { parse_understanding("fine"); }) != "");
}

TEST_CASE("a rating counts until ten marks of its topic were tried unseen") {
    const std::vector<TopicRating> ratings{rated("integration", shaky)};
    Candidate none = candidate();
    CHECK(of_integration(none, ratings).front().goes_by_rating());
    Candidate nine = candidate();
    nine.sittings.push_back(
        test::sat(1,
                  std::make_shared<const Paper>(PaperHead{"a", "", "pure", {}, {}},
                                                std::vector<Part>{{"1", Marks(9), "integration", ""}}),
                  0, "0"));
    CHECK(of_integration(nine, ratings).front().tried == Marks(9));
    CHECK(of_integration(nine, ratings).front().goes_by_rating());
    Candidate ten = candidate();
    ten.sittings.push_back(
        test::sat(1,
                  std::make_shared<const Paper>(PaperHead{"a", "", "pure", {}, {}},
                                                std::vector<Part>{{"1", Marks(10), "integration", ""}}),
                  0, "0"));
    CHECK(of_integration(ten, ratings).front().goes_by_marks());
    CHECK(ratings_that_count(of_integration(ten, ratings)).empty());
    CHECK(ratings_that_count(of_integration(nine, ratings)).size() == 1);
}

TEST_CASE("parts not attempted, and parts met before, are not tried") {
    const auto part = std::make_shared<const Paper>(PaperHead{"a", "", "pure", {}, {}},
                                                    std::vector<Part>{{"1", Marks(6), "integration", ""}});
    Candidate twice = candidate();
    twice.sittings = {test::sat(1, part, 0, "2"), test::sat(2, part, 7, "6")};
    CHECK(of_integration(twice, {}).front().tried == Marks(6));
    Candidate blank = candidate();
    blank.sittings = {test::sat(1, part, 0, "-")};
    CHECK(of_integration(blank, {}).front().tried == Marks(0));
    CHECK(of_integration(blank, {}).front().met);
    CHECK_FALSE(of_integration(candidate(), {}).front().met);
}

TEST_CASE("marks that are firm enough to book relearning outweigh a rating of sure") {
    std::vector<Part> parts;
    for (int i = 1; i <= 20; ++i)
        parts.push_back({std::to_string(i), Marks(3), i <= 3 ? "integration" : "logs", ""});
    const auto paper = std::make_shared<const Paper>(PaperHead{"a", "", "pure", {}, {}}, parts);
    const auto rated_with = [&](const std::string& marks, Understanding understanding) {
        Candidate candidate = test::candidate();
        candidate.sittings = {test::sat(1, paper, 0, marks)};
        return of_integration(candidate, {rated("integration", understanding)}).front();
    };
    std::string others;
    for (int i = 4; i <= 20; ++i)
        others += " 3";
    const std::string lost = "0:method 0:method 0:method" + others;
    CHECK(rated_with(lost, sure).tried == Marks(9));
    CHECK(rated_with(lost, sure).goes_by_marks());
    CHECK(ratings_that_count({rated_with(lost, sure)}).empty());
    CHECK(rated_with(lost, shaky).goes_by_rating());
    CHECK(rated_with("3 3 3" + others, sure).goes_by_rating());
}

TEST_CASE("a paper that was drawn and sat on the day of the rating is its check, another paper isn't") {
    const auto paper = std::make_shared<const Paper>(PaperHead{"check-1", "", "pure", {}, {}},
                                                     std::vector<Part>{{"1", Marks(6), "surds", ""}});
    Candidate checked = candidate();
    checked.sittings = {test::sat(1, paper, 0, "6")};
    TimetableRequest request = request_with({rated("surds", shaky)});
    CHECK(text_of(timetable(checked, request, day(0))) == "check surds");
    request.drawn = {"check-1"};
    CHECK(text_of(timetable(checked, request, day(0))).empty());
}

TEST_CASE("on the first days the plan is three things for the week: understanding, facts, practice") {
    const std::vector<TopicRating> ratings{rated("logs", lost_on), rated("proof", lost_on),
                                           rated("surds", shaky), rated("series", lost_on),
                                           rated("sets", sure)};
    TimetableRequest all = request_with(ratings, 9);
    all.facts = {{FactId{1}, "log ab", "log a + log b", "logs", "pure"},
                 {FactId{2}, "i^2", "-1", "complex", "pure"}};
    const Timetable made = timetable(candidate(), all, day(0));
    CHECK(text_of(made) == "check surds; recall; relearn logs; relearn logs");
    CHECK(made.first_things == 3);
    CHECK(made.by_ratings.size() == 5);
    REQUIRE(made.items.size() == 4);
    CHECK(made.items[1].kind() == WorkKind::relearn);
    CHECK(made.items[2].kind() == WorkKind::recall);
    CHECK(*made.items[1].day < *made.items[2].day);
    CHECK(*made.items[2].day < *made.items[3].day);
    for (const WorkItem& item : made.items)
        if (const auto* group = std::get_if<RecallGroup>(&item.work))
            CHECK(group->facts == std::vector<FactId>{FactId{1}}); // of the topic to understand
}

TEST_CASE("where there is nothing of a kind, the first days take more of another") {
    CHECK(text_of(timetable(candidate(), request_with({rated("logs", lost_on), rated("proof", lost_on)}),
                            day(0))) == "relearn logs; relearn logs; relearn proof; relearn proof");
    CHECK(text_of(timetable(candidate(), request_with({rated("sets", sure)}, 5), day(0))) == "sit pure-1");
    CHECK(text_of(timetable(candidate(), request_with({rated("logs", lost_on)}, 5), day(0))) ==
          "relearn logs; relearn logs; sit pure-1");
    std::vector<TopicRating> many;
    for (const char* const topic : {"a", "b", "c", "d", "e"})
        many.push_back(rated(topic, lost_on));
    const Timetable made = timetable(candidate(), request_with(many), day(0));
    CHECK(made.first_things == 3);
    CHECK(made.items.size() == 6);
}

TEST_CASE("without a rating the first days are as ever") {
    const Timetable made = timetable(candidate(), request_with({}, 3), day(0));
    CHECK(made.first_things == 0);
    CHECK(made.items.size() == 3);
}

TEST_CASE("once a paper is sat, ratings add their topics to the plan by marks") {
    Candidate sat_one = candidate();
    sit(sat_one, paper("mechanics-1", "mechanics"), day(-3), 5);
    const Timetable made =
        timetable(sat_one, request_with({rated("logs", lost_on), rated("surds", shaky)}), day(0));
    CHECK(made.first_things == 0);
    CHECK(text_of(made) == "check surds; relearn logs; relearn logs");
}

TEST_CASE("what was relearned or tried since it was rated is off the plan, and comes back when rated again") {
    Candidate relearned = candidate();
    relearned.relearned.push_back({"pure", "logs", day(1), true});
    CHECK(text_of(timetable(relearned, request_with({rated("logs", lost_on)}), day(2))) == "relearn logs");
    relearned.relearned.back().half = false;
    const Timetable done = timetable(relearned, request_with({rated("logs", lost_on)}), day(2));
    CHECK(done.items.size() == 1); // its check, two weeks later
    CHECK(done.items.front().kind() == WorkKind::check);
    CHECK(text_of(timetable(relearned, request_with({rated("logs", lost_on, 2)}), day(2))) ==
          "relearn logs; relearn logs");
    Candidate let_go = candidate();
    let_go.steered_work.push_back(
        {WorkPurpose::relearn, "pure", "logs", {std::nullopt, LetGo{day(0), "taught"}}});
    CHECK(timetable(let_go, request_with({rated("logs", lost_on)}), day(0)).items.empty());
}

TEST_CASE("a topic rated not understood that fails after it was relearned is relearned again") {
    Candidate one = candidate();
    one.relearned.push_back({"pure", "integration", day(2)});
    const std::vector<TopicRating> ratings{rated("integration", lost_on)};
    CHECK(pieces_relearned(one, ratings[0]) == 2);
    CHECK(rated_to_relearn(one, ratings).empty());
    sit_part(one, "pure", "integration", day(3), "2:method");
    CHECK(pieces_relearned(one, ratings[0]) == 0);
    CHECK(rated_to_relearn(one, ratings).size() == 1);
    CHECK(of_integration(one, ratings)[0].goes_by_rating());
    one.relearned.push_back({"pure", "integration", day(3), true});
    CHECK(pieces_relearned(one, ratings[0]) == 1);
    one.relearned.push_back({"pure", "integration", day(4), true});
    CHECK(rated_to_relearn(one, ratings).empty());
}

TEST_CASE("a rating of not understood gives way to the marks once its check was got") {
    const std::vector<TopicRating> ratings{rated("integration", lost_on)};
    const auto goes_by_rating = [&](int on, const std::string& marks) {
        Candidate one = candidate();
        one.relearned.push_back({"pure", "integration", day(2)});
        sit_part(one, "pure", "integration", day(on), marks);
        return of_integration(one, ratings)[0].goes_by_rating();
    };
    CHECK(goes_by_rating(15, "5"));
    CHECK_FALSE(goes_by_rating(16, "5"));
    CHECK_FALSE(goes_by_rating(16, "4:slip"));
    CHECK(goes_by_rating(16, "4:method"));
    CHECK(goes_by_rating(16, "-:unfinished"));
}

TEST_CASE("what the plan has relearned by a rating is the advice too") {
    Candidate one = candidate();
    sit_part(one, "pure", "integration", day(1), "-:unfinished");
    std::vector<TopicDiagnosis> topics = diagnose({unseen_marks(one)});
    const auto ratings = of_integration(one, {rated("integration", lost_on)});
    add_rated_advice(topics, one, ratings);
    REQUIRE(topics.size() == 1);
    REQUIRE(topics[0].advice);
    CHECK(topics[0].advice->what == Advice::relearn);
    CHECK(topics[0].advice->rated);
    topics[0].advice.reset();
    add_rated_advice(topics, one, of_integration(one, {rated("integration", shaky)}));
    CHECK_FALSE(topics[0].advice);
}

TEST_CASE("an exam ends the days of what is rated") {
    Candidate examined = candidate();
    examined.exams.push_back({"Pure", day(3), "pure", false});
    const Timetable made = timetable(examined, request_with({rated("logs", lost_on)}), day(0));
    for (const WorkItem& item : made.items)
        CHECK(item.possible_days->last < day(3));
}
