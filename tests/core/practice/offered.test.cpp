#include "inkturn/practice/offered.hpp"

#include "catch.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

using PaperPtr = std::shared_ptr<const Paper>;

constexpr Day today{date::year{2026} / date::November / 25};

PaperPtr paper(const std::string& id) {
    return std::make_shared<const Paper>(PaperHead{id, "", "pure", {}},
                                         std::vector<Part>{{"1", Marks(4), "", ""}});
}

Candidate candidate(const std::string& code) {
    Candidate one;
    one.code = code;
    return one;
}

const std::vector<PaperPtr> papers{paper("a"), paper("b"), paper("c")};

std::string ids(const std::vector<PaperPtr>& of) {
    std::string all;
    for (const PaperPtr& one : of)
        all += one->id();
    return all;
}

} // namespace

TEST_CASE("sets for a reader are those printed for them or for a class of theirs, the latest first") {
    const std::vector<PrintedSet> printed{{"a", today - Days{3}, "K07", ""},
                                          {"b", today - Days{1}, "", "tuesday"},
                                          {"c", today, "", ""},
                                          {"d", today, "K08", ""}};
    const auto theirs = [&](const SetReaders& readers) {
        std::string all;
        for (const PrintedSet& set : sets_for(readers, printed))
            all += set.paper;
        return all;
    };
    CHECK(theirs({{"K07"}, {"tuesday"}}) == "ba");
    CHECK(theirs({{"K07"}, {}}) == "a");
    CHECK(theirs({{"K07", "K08"}, {}}) == "da");
    CHECK(theirs({{}, {"tuesday"}}) == "b");
    CHECK(theirs({}) == "c"); // for nobody in particular
}

TEST_CASE(
    "a plan is offered no paper that is kept unseen, and no set that was printed for others or for nobody") {
    const std::vector<PrintedSet> printed{{"b", today, "K07", ""}, {"c", today, "", "tuesday"}};
    CHECK(ids(offered_papers(papers, candidate("K07"), {}, {}, printed, today)) == "ab");
    CHECK(ids(offered_papers(papers, candidate("K08"), {"tuesday"}, {}, printed, today)) == "ac");
    CHECK(ids(offered_papers(papers, candidate("K08"), {"tuesday"}, {"a", "c"}, printed, today)).empty());
    CHECK(ids(offered_papers(papers, candidate("K08"), {}, {}, {{"a", today, "", ""}}, today)) == "bc");
}

TEST_CASE("a paper asked for by its name is offered once, for whomever it was printed") {
    std::vector<PaperPtr> offered =
        offered_papers(papers, candidate("K08"), {}, {}, {{"a", today, "", ""}}, today);
    offer(offered, papers[0]);
    offer(offered, papers[0]);
    CHECK(ids(offered) == "bca");
}

TEST_CASE("a paper that was sat, or that a day was asked for, is offered all the same") {
    Candidate sat = candidate("K07");
    sat.sittings.push_back({SittingId{1}, papers[0], {today, {}, parse_line(*papers[0], "4")}, {}});
    sat.steered_work.push_back({WorkPurpose::sit, "pure", "b", {today + Days{2}, {}}});
    CHECK(ids(offered_papers(papers, sat, {}, {"a", "b", "c"}, {}, today)) == "ab");
    CHECK(ids(offered_papers(papers, sat, {}, {"a", "b", "c"}, {}, today + Days{3})) == "a");
}
