#include "inkturn/store/papers.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/amendment.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/steering.hpp"
#include "papers.hpp"
#include "refusal.hpp"
#include "store/store_on_file.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

Paper spelt(const std::string& id, const std::string& topic) {
    return Paper(
        {id, "", "pure", {}, RetryBy::question},
        {{"1a", Marks(4), topic, "M1 A1 B2"}, {"1b", Marks(2), topic, ""}, {"2", Marks(5), "series", ""}});
}

struct OnePaper : StoreOnFile {
    SittingId id{};

    OnePaper() {
        change([&](Store::Change& open) {
            open.add_paper(spelt("pure-a", "vectros"));
            id = open.add_sitting("K07", spelt("pure-a", ""),
                                  {monday, {}, parse_line(spelt("pure-a", ""), "3 1 4:slip")});
        });
    }
    PaperAmended amend(const std::vector<std::string>& texts, const std::string& paper = "pure-a") {
        PaperAmendment amendment;
        for (const std::string& text : texts)
            amendment.parts.push_back(parse_part_amendment(text));
        return change([&](Store::Change& open) {
            return PapersOnFile(open).amend(amended(*open.store().find_paper(paper), amendment));
        });
    }
    std::string refused(const std::vector<std::string>& texts) {
        const std::string before = bytes_of(file);
        std::string why = refusal_of([&] { amend(texts); });
        CHECK(bytes_of(file) == before);
        return why;
    }
};

} // namespace

TEST_CASE("a paper that was sat is amended, and its sittings stay") {
    OnePaper on;
    on.amend({"1a:topic=vectors", "2:marks=6", "1b:marks=1"});
    on.reopen();
    const auto paper = on.store.find_paper("pure-a");
    CHECK(paper->part(0).topic == "vectors");
    CHECK(paper->marks() == Marks(11));
    CHECK(to_line(on.store.candidate("K07").sittings.at(0).sitting.parts) == "3 1 4:slip");
    on.change([](Store::Change& open) {
        PaperAmendment head;
        head.title = "Pure, paper A";
        head.duration = Seconds(1200);
        PapersOnFile(open).amend(amended(*open.store().find_paper("pure-a"), head));
    });
    on.reopen();
    CHECK(on.store.find_paper("pure-a")->title() == "Pure, paper A");
    CHECK(on.store.find_paper("pure-a")->duration() == Seconds(1200));
}

TEST_CASE("marks on file that would not fit are named, and nothing is amended") {
    OnePaper on;
    CHECK_THAT(on.refused({"2:marks=3", "1a:topic=x"}), Contains("would not fit: 2 of sitting 1;"));
    CHECK_THAT(on.refused({"2:marks=4"}), Contains("2 of sitting 1")); // a slip with nothing lost
    on.change([&](Store::Change& open) {
        open.add_reattempt(on.id, {"2", 1, day(14), {PartMarks({Marks(5)}, Marks(5))}});
        Script script = blank_script("K08", open.store().find_paper("pure-a"), day(3), {});
        script.events = {{ClockEventKind::start, day(3), 0},
                         {ClockEventKind::hand_in, day(3) + Seconds{60}, 0}};
        Desk(open).add(script);
        script.marks[0] = PartMarks({Marks(4)}, Marks(4));
        Desk(open).keep_marks(script);
    });
    CHECK_THAT(on.refused({"2:marks=4"}), Contains("2 of sitting 1, 2 of retry 1q2;"));
    CHECK_THAT(on.refused({"1a:marks=3", "1a:codes="}), Contains("1a of script 2;"));
    on.change([&](Store::Change& open) {
        for (int i = 1; i < 12; ++i)
            open.add_sitting("K08", spelt("pure-a", ""),
                             {day(30 + i), {}, parse_line(spelt("pure-a", ""), "3 2 5")});
    });
    CHECK_THAT(on.refused({"1b:marks=1"}), Contains(" and 3 more;"));
}

TEST_CASE("a retry that was recorded has to stay one") {
    OnePaper on;
    on.change([&](Store::Change& open) {
        open.add_reattempt(on.id, {"1", 1, day(14), {full_marks(Marks(4)), full_marks(Marks(2))}});
    });
    CHECK_THAT(on.refused({"1a:marks=3", "1a:codes=M1 A1 B1", "1b:marks=1"}), Contains("1a of retry 1q1"));
    on.amend({"1a:marks=5", "1a:codes=M1 A1 B3"});
    CHECK(on.store.candidate("K07").sittings.at(0).reattempts.size() == 1);
}

TEST_CASE("other parts, or another unit of retries, are another paper") {
    OnePaper on;
    on.change([](Store::Change& open) {
        PapersOnFile papers(open);
        CHECK_THROWS_WITH(papers.amend(*paper_of("pure-a", {4, 2, 5})), Contains("has other parts"));
        CHECK_THROWS_WITH(papers.amend(*paper_of("pure-b", {4})), Contains("no paper pure-b on file"));
    });
}

TEST_CASE("what was noted of a topic goes with it once no part has its old name") {
    OnePaper on;
    on.change([](Store::Change& open) {
        PlanOnFile plan(open);
        plan.add_relearned("K07", {"pure", "vectros", monday});
        plan.add_relearned("K07", {"pure", "vectors", monday});
        plan.add_relearned("K07", {"pure", "vectros", day(1)});
        SteeringOnFile(open).steer("K07", {WorkPurpose::relearn, "pure", "vectros", {day(5), {}}});
        plan.keep("K07", {{WorkPurpose::relearn, "pure", "vectros", 0, day(2), Seconds(60)}});
        FactsOnFile(open).add({FactId{}, "|a|", "its length", "vectros", "pure"});
    });
    const auto topics = [&] {
        std::string text;
        for (const Relearned& one : on.store.candidate("K07").relearned)
            text += one.topic + " " + std::to_string((one.day - monday).count()) + "; ";
        return text + on.store.candidate("K07").planned.at(0).name + " " +
               FactsOnFile::all(on.store).at(0).topic;
    };
    SECTION("at once") {
        const PaperAmended done = on.amend({"1a:topic=vectors", "1b:topic=vectors"});
        REQUIRE(done.topics.size() == 1);
        CHECK(done.topics[0].from == "vectros");
        CHECK(topics() == "vectors 0; vectors 1; vectors vectors");
        CHECK(on.store.candidate("K07").steered_work.at(0).name == "vectors");
    }
    SECTION("not while another part has it") {
        CHECK(on.amend({"1a:topic=vectors"}).topics.empty());
        CHECK(topics() == "vectors 0; vectros 0; vectros 1; vectros vectros");
    }
    SECTION("not where its parts have several now") {
        CHECK(on.amend({"1a:topic=vectors", "1b:topic=lines"}).topics.empty());
        CHECK(on.store.candidate("K07").relearned.size() == 3);
    }
    SECTION("not where another paper has it") {
        on.change([](Store::Change& open) { open.add_paper(spelt("pure-b", "vectros")); });
        CHECK(on.amend({"1a:topic=vectors", "1b:topic=vectors"}).topics.empty());
    }
    SECTION("to another subject") {
        on.change([](Store::Change& open) {
            PaperAmendment head;
            head.subject = "further";
            PapersOnFile(open).amend(amended(*open.store().find_paper("pure-a"), head));
        });
        CHECK(on.store.candidate("K07").relearned.at(0).subject == "further");
        CHECK(on.store.candidate("K07").planned.at(0).subject == "further");
    }
}

TEST_CASE("a question is amended in the papers it was drawn for too, whichever of them is named") {
    OnePaper on;
    on.change([](Store::Change& open) {
        open.add_paper(Paper({"drawn", "", "pure", {}, RetryBy::question},
                             {{"1a", Marks(4), "vectros", "M1 A1 B2"}, {"1b", Marks(2), "vectros", ""}}));
        DrawnPapers(open).note_copy({"pure-a", "1"}, {"drawn", "1"});
    });
    CHECK(on.amend({"1a:topic=vectors"}).copies == std::vector<std::string>{"drawn"});
    CHECK(on.store.find_paper("drawn")->part(0).topic == "vectors");
    CHECK(on.store.find_paper("drawn")->part(1).topic == "vectros");
    CHECK(on.amend({"1b:topic=vectors"}, "drawn").topics.size() == 1);
    CHECK(on.store.find_paper("pure-a")->part(1).topic == "vectors");
    CHECK(on.amend({"2:topic=sums"}).copies.empty());
    on.change([](Store::Change& open) {
        open.add_sitting("K09", *open.store().find_paper("drawn"),
                         {monday, {}, parse_line(*open.store().find_paper("drawn"), "4 2")});
    });
    CHECK_THAT(on.refused({"1b:marks=1"}),
               Contains("paper drawn has marks on file that would not fit: 1b of sitting 2"));
}
