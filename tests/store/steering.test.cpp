#include "inkturn/store/steering.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/store/store.hpp"
#include "papers.hpp"
#include "refusal.hpp"
#include "store/store_on_file.hpp"

#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// K07 sat a paper of two questions and missed both.
struct OnFile : StoreOnFile {
    SittingId sitting{};

    OnFile() {
        const auto paper = paper_of("p1", {10, 5});
        sitting = change([&](Store::Change& open) {
            open.add_paper(*paper);
            return open.add_sitting("K07", *paper, sat(1, paper, 0, "8 4").sitting);
        });
    }

    template <typename Verb>
    void steer(const Verb& verb) {
        change([&](Store::Change& open) { verb(SteeringOnFile(open)); });
    }
    void steer(const std::string& question, const Steering& steering) {
        steer([&](SteeringOnFile on) { on.steer({sitting, question, steering}); });
    }
    void reattempt(const std::string& question, int turn, int on, int unaided, int max) {
        change([&](Store::Change& open) {
            open.add_reattempt(sitting, {question,
                                         turn,
                                         day(on),
                                         {PartMarks(MarksByPhase{Marks(unaided)}, Marks(max), std::nullopt)},
                                         {}});
        });
    }
    Candidate candidate() {
        reopen();
        return store.candidate("K07");
    }
    std::string refused(const std::string& question, const Steering& steering) {
        return refusal_of([&] { steer(question, steering); });
    }
};

} // namespace

TEST_CASE("what was decided about a retry is read back, replaced and taken back") {
    OnFile on;
    on.steer("1", {day(20), std::nullopt});
    on.steer("2", {day(9), LetGo{day(3), "not set"}});
    Candidate candidate = on.candidate();
    REQUIRE(candidate.steered_retries.size() == 2);
    CHECK(steering_of(candidate, on.sitting, "1").wanted == day(20));
    CHECK_FALSE(steering_of(candidate, on.sitting, "1").let_go);
    const Steering second = steering_of(candidate, on.sitting, "2");
    CHECK(second.wanted == day(9));
    CHECK(second.let_go->day == day(3));
    CHECK(second.let_go->reason == "not set");

    on.change([&](Store::Change& open) { open.keep_day({on.sitting, "1", day(20)}); });
    on.steer("1", {day(21), std::nullopt});
    CHECK(on.candidate().placements.size() == 1);
    CHECK(steering_of(on.candidate(), on.sitting, "1").wanted == day(21));
    on.steer("1", {});
    candidate = on.candidate();
    CHECK(candidate.steered_retries.size() == 1);
    CHECK(candidate.placements.empty()); // it is placed without the day that was asked for
}

TEST_CASE("a decision about a retry needs its question, days and a reason") {
    OnFile on;
    CHECK_FALSE(on.refused("3", {day(20), std::nullopt}).empty());
    CHECK_FALSE(on.refused("1", {std::nullopt, LetGo{day(3), ""}}).empty());
    CHECK(on.refused("1", {std::nullopt, LetGo{day(3), std::string(200, 'x')}}).empty());
    CHECK_FALSE(on.refused("1", {std::nullopt, LetGo{day(3), std::string(201, 'x')}}).empty());
    CHECK_FALSE(on.refused("1", {latest_day + Days{1}, std::nullopt}).empty());
}

TEST_CASE("a re-attempt ends the day that was asked for its turn, and so does undoing it") {
    OnFile on;
    on.steer("1", {day(15), std::nullopt});
    on.reattempt("1", 1, 15, 9, 10);
    CHECK(on.candidate().steered_retries.empty());
    on.steer("1", {day(30), std::nullopt});
    on.change([&](Store::Change& open) { open.remove_reattempt({on.sitting, "1", 1}); });
    CHECK(on.candidate().steered_retries.empty());
}

TEST_CASE("a turn that was asked for is read back with its sitting, and can be taken back") {
    OnFile on;
    on.reattempt("1", 1, 15, 10, 10);
    on.steer([&](SteeringOnFile open) { open.ask_again(on.sitting, {"1", 2, day(20)}); });
    const auto asked = on.candidate().sittings.at(0).asked_again;
    REQUIRE(asked.size() == 1);
    CHECK(asked[0].question == "1");
    CHECK(asked[0].turn == 2);
    CHECK(asked[0].day == day(20));
    CHECK_FALSE(refusal_of([&] {
                    on.steer([&](SteeringOnFile open) { open.ask_again(on.sitting, {"1", 1, day(20)}); });
                }).empty());
    on.steer([&](SteeringOnFile open) { open.take_back_turn({on.sitting, "1", 2}); });
    CHECK(on.candidate().sittings.at(0).asked_again.empty());
    CHECK(refusal_of([&] {
              on.steer([&](SteeringOnFile open) { open.take_back_turn({on.sitting, "1", 2}); });
          }) == "retry 1q1t2 was not asked for again");
}

TEST_CASE("what was decided about papers and topics is read back, and keeps its candidate on file") {
    OnFile on;
    on.steer([](SteeringOnFile open) {
        open.steer("K08", {WorkPurpose::relearn, "pure", "vectors", {day(4), std::nullopt}});
        open.steer("K08", {WorkPurpose::sit, "pure", "p2", {std::nullopt, LetGo{day(1), "seen"}}});
    });
    on.reopen();
    Candidate candidate = on.store.candidate("K08");
    REQUIRE(candidate.steered_work.size() == 2);
    CHECK(steering_of(candidate, WorkPurpose::sit, "pure", "p2").let_go->reason == "seen");
    CHECK(steering_of(candidate, WorkPurpose::relearn, "pure", "vectors").wanted == day(4));
    CHECK(steering_of(candidate, WorkPurpose::relearn, "", "vectors").is_none());
    CHECK_FALSE(refusal_of([&] {
                    on.steer([](SteeringOnFile open) {
                        open.steer("K08", {WorkPurpose::recall, "pure", "1", {day(4), std::nullopt}});
                    });
                }).empty());
    on.steer([](SteeringOnFile open) {
        open.steer("K08", {WorkPurpose::relearn, "pure", "vectors", {}});
        open.steer("K08", {WorkPurpose::sit, "pure", "p2", {}});
    });
    CHECK_FALSE(on.store.has_candidate("K08"));
}

TEST_CASE("a sitting that is removed takes what was decided about its retries with it") {
    OnFile on;
    on.steer("1", {day(20), std::nullopt});
    on.change([&](Store::Change& open) { open.remove_sitting(on.sitting); });
    CHECK(on.candidate().steered_retries.empty());
}
