// Tries on the store named what the contract rules out. Each has to be an Error, and to leave the store as it
// was.
#include <inkturn/grades/standing.hpp>
#include <inkturn/seats/lost_marks.hpp>
#include <inkturn/statistics/analysis.hpp>
#include <inkturn/store/change.hpp>
#include <inkturn/store/reading.hpp>

#include <cstdlib>
#include <functional>
#include <iostream>

namespace {

using namespace inkturn;

int failures = 0;

std::string_view name(Error::Kind kind) {
    switch (kind) {
    case Error::Kind::invalid:
        return "invalid";
    case Error::Kind::not_found:
        return "not found";
    case Error::Kind::conflict:
        return "conflict";
    case Error::Kind::misused:
        return "misused";
    default:
        return "other";
    }
}

void refused(const std::string& what, const std::function<void()>& attempt) {
    try {
        attempt();
        std::cout << what << ": NOT REFUSED\n";
        ++failures;
    } catch (const Error& error) {
        std::cout << what << ": " << name(error.kind()) << '\n';
    }
}

/// The first sitting of candidate K07.
SittingRecord record(const Store& store) {
    return store.candidate("K07").sittings.at(0);
}

void try_values() {
    refused("9 marks of 4", [] { PartMarks({Marks(9)}, Marks(4)); });
    refused("9 marks of 4, typed", [] { parse_part_marks("9", Marks(4)); });
    refused("marks below 0", [] { Marks(2) - Marks(3); });
    refused("a part without marks", [] {
        Paper({"empty", "", "", std::nullopt}, {{"1", Marks(0), "", ""}});
    });
    refused("extra time above its maximum", [] { ExtraTime(101); });
    refused("a figure that is not there", [] { Figure(NoFigure::one_part).value(); });
    refused("a reason where there is a figure", [] { Figure(0.5).why(); });
}

void try_functions(const Store& store) {
    const Candidate candidate = store.candidate("K07");
    const Paper& paper = *record(store).paper;
    const std::vector<PartMarks> half(1, full_marks(paper.parts()[0].max));
    const Question other{"9", {7}, Marks(1)};
    refused("totals of half the parts", [&] { totals(paper, half); });
    refused("reasons of half the parts", [&] { lost_by_reason(paper, half); });
    refused("reach of half the parts", [&] { reach_of(paper, half); });
    refused("missed marks of half the parts", [&] { missed_marks(paper, paper.questions()[1], half); });
    refused("missed marks of another paper's question",
            [&] { missed_marks(paper, other, record(store).sitting.parts); });
    refused("the allowance of another paper's question",
            [&] { question_allowance(other, part_allowances(paper)); });
    refused("a question beyond the last", [&] {
        Retry retry;
        retry.paper = record(store).paper;
        retry.question = 9;
        retry.paper_question();
    });

    Candidate broken = candidate;
    broken.sittings[0].sitting.parts = half;
    refused("retries of half a sitting", [&] { open_retries(broken, latest_day); });
    refused("the standing of half a sitting", [&] { standing(broken, {}); });
    broken = candidate;
    broken.sittings[0].paper = nullptr;
    refused("retries of a sitting without a paper", [&] { open_retries(broken, latest_day); });
    broken = candidate;
    broken.availability.week[0] = Seconds(-1);
    refused("retries with less than no time", [&] { open_retries(broken, latest_day); });

    refused("a standing under a set without a total", [&] { standing({}, {{"June", "", Marks(0), {}}}); });
    refused("seats for rows of two lengths", [] {
        plan_seats({1, 1}, {{SeatWeight(1)}, {SeatWeight(1), SeatWeight(2)}});
    });
    refused("65 lessons", [] { plan_seats({65, 1}, {{SeatWeight(1)}}); });
    refused("more weight than can be added up", [] {
        plan_seats({1, 1}, {{SeatWeight(2'000'000'000)}, {SeatWeight(2'000'000'000)}});
    });
    refused("seats of other candidates", [] {
        SeatPlan plan;
        plan.lessons.push_back({{0}, {{5, SeatWeight(1)}}});
        losses_by_seat(plan, LostMarks());
    });
}

void try_store(Store& store) {
    const SittingRecord on_file = record(store);
    const Paper& paper = *on_file.paper;
    Sitting half = on_file.sitting;
    half.parts.pop_back();
    Sitting too_many = on_file.sitting;
    too_many.parts[0] = PartMarks({Marks(9)}, Marks(9));

    Store::Change change(store);
    refused("half a sitting's parts", [&] { change.add_sitting("K08", paper, half); });
    refused("9 marks in a part of fewer", [&] { change.add_sitting("K08", paper, too_many); });
    refused("a change to half a sitting's parts", [&] { change.change_sitting(on_file.id, half); });
    refused("a change of a sitting that is not there",
            [&] { change.change_sitting(SittingId{99}, on_file.sitting); });
    refused("removing a sitting that is not there", [&] { change.remove_sitting(SittingId{99}); });
    refused("removing a paper that is not there", [&] { change.remove_paper("pure-9"); });
    refused("the same sitting again", [&] { change.add_sitting("K07", paper, on_file.sitting); });
    refused("a re-attempt of a question that is not there", [&] {
        change.add_reattempt(on_file.id, {"9", 1, on_file.sitting.day, {}});
    });
    refused("a change inside a change", [&] { Store::Change second(store); });
    refused("rewriting the file inside a change", [&] { store.compact(); });
    change.commit();
    refused("a verb after the change is over", [&] { change.remove_paper(paper.id()); });
    refused("saving a change twice", [&] { change.commit(); });
    const Reading reading(store);
    refused("a change inside a reading", [&] { Store::Change second(store); });
}

} // namespace

int main(int count, char** arguments) {
    if (count != 2)
        return EXIT_FAILURE;
    try {
        Store store = Store::open(arguments[1]);
        try_values();
        try_functions(store);
        try_store(store);
        {
            Store::Change taken_back(store);
            taken_back.remove_paper(record(store).paper->id());
        }
        std::cout << store.candidate("K07").sittings.size() << " sitting on file\n";
    } catch (const std::exception& error) {
        std::cout << "FAILED: " << error.what() << '\n';
        ++failures;
    }
    return failures == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
