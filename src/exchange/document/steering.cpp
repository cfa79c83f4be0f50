#include "exchange/document/steering.hpp"

#include "exchange/document/strict_json.hpp"
#include "inkturn/store/steering.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace inkturn {
namespace {

constexpr int max_turn_asked = 9999; ///< as in a retry's id

void add(const Steering& steering, Json& object) {
    if (steering.wanted)
        object["wanted"] = iso(*steering.wanted);
    if (steering.let_go)
        object["dropped"] = {{"date", iso(steering.let_go->day)}, {"reason", steering.let_go->reason}};
}

Steering read_steering_of(const JsonValue& value, Day today) {
    Steering steering;
    if (value.has("wanted"))
        steering.wanted = read_day(value.at("wanted"));
    if (value.has("dropped")) {
        const JsonValue dropped = value.at("dropped");
        dropped.check_keys({"date", "reason"});
        steering.let_go =
            LetGo{read_past_day(dropped.at("date"), today, "a drop"), dropped.at("reason").text()};
    }
    if (steering.is_none())
        value.refuse("neither a day that is wanted nor a drop");
    value.checked([&] { check_steering(steering); });
    return steering;
}

SteeredRetry read_steered_retry(const JsonValue& value, const Candidate& candidate, Day today) {
    value.check_keys({"paper", "sitting", "question"}, {"wanted", "dropped"});
    const Day day = read_day(value.at("sitting"));
    const std::string& paper = value.at("paper").text();
    const auto record =
        std::find_if(candidate.sittings.begin(), candidate.sittings.end(), [&](const SittingRecord& sitting) {
            return sitting.paper->id() == paper && sitting.sitting.day == day;
        });
    if (record == candidate.sittings.end())
        value.at("sitting").refuse("candidate " + candidate.code + " has no sitting of " + paper + " on " +
                                   iso(day));
    const std::string& label = value.at("question").text();
    const auto question = record->paper->find_question(label);
    if (!question || !turn_to_follow(*record, record->paper->questions()[*question]))
        value.at("question").refuse("question " + label + " is not open, so nothing is decided about it");
    return {record->id, label, read_steering_of(value, today)};
}

SteeredWork read_steered_work(const JsonValue& value, Day today) {
    value.check_keys({"kind", "subject", "name"}, {"wanted", "dropped"});
    const auto what = work_purpose_named(value.at("kind").text());
    if (what != WorkPurpose::sit && what != WorkPurpose::relearn)
        value.at("kind").refuse("'" + value.at("kind").text() + "' is neither sit nor relearn");
    SteeredWork work{*what, value.at("subject").name(), value.at("name").name(),
                     read_steering_of(value, today)};
    value.checked([&] { check_steering(work); });
    return work;
}

std::string said(const Steering& steering) {
    if (steering.let_go)
        return "dropped on " + iso(steering.let_go->day);
    return steering.wanted ? "asked for on " + iso(*steering.wanted) : "not decided";
}

bool is_same(const Steering& a, const Steering& b) {
    const auto let_go = [](const Steering& steering) {
        return steering.let_go ? std::optional(std::pair(steering.let_go->day, steering.let_go->reason))
                               : std::nullopt;
    };
    return a.wanted == b.wanted && let_go(a) == let_go(b);
}

/// Whether the document's is to be stored.
bool is_taken(const std::string& what, const Steering& here, const Steering& in_file,
              const MergeOptions& options, Merge& merge) {
    if (is_same(here, in_file))
        return false;
    if (here.is_none()) {
        ++merge.steered_added;
        return true;
    }
    if (options.replaces_plan()) {
        ++merge.steered_replaced;
        return true;
    }
    merge.refuse(what + " is " + said(here) + " here, " + said(in_file) +
                 " in the file; --replace takes the file's");
    return false;
}

const SittingRecord* find_same(const Candidate& candidate, const SittingRecord& record) {
    for (const SittingRecord& other : candidate.sittings)
        if (other.paper->id() == record.paper->id() && other.sitting.day == record.sitting.day)
            return &other;
    return nullptr;
}

int turn_of(const SittingRecord& record, const std::string& question) {
    const auto position = record.paper->find_question(question);
    const auto open =
        position ? turn_to_follow(record, record.paper->questions()[*position]) : std::optional<OpenTurn>();
    return open ? open->turn : 0;
}

} // namespace

std::vector<SteeredRetry> exported_steering(const Candidate& candidate, const SittingRecord& record) {
    std::vector<SteeredRetry> steered;
    for (const Question& question : record.paper->questions()) {
        Steering steering = steering_of(candidate, record.id, question.label);
        if (!steering.is_none() && turn_to_follow(record, question))
            steered.push_back({record.id, question.label, std::move(steering)});
    }
    return steered;
}

void add_asked_again(const SittingRecord& record, Json& sitting) {
    for (const AskedAgain& again : record.asked_again)
        sitting["asked_again"].push_back(
            {{"question", again.question}, {"turn", again.turn}, {"date", iso(again.day)}});
}

void add_steering(const Candidate& candidate, Json& object) {
    for (const SteeredRetry& steered : candidate.steered_retries) {
        const SittingRecord& record = get_sitting(candidate, steered.sitting);
        Json one{{"paper", record.paper->id()},
                 {"sitting", iso(record.sitting.day)},
                 {"question", steered.question}};
        add(steered.steering, one);
        object["steered_retries"].push_back(std::move(one));
    }
    for (const SteeredWork& steered : candidate.steered_work) {
        Json one{{"kind", name(steered.what)}, {"subject", steered.subject}, {"name", steered.name}};
        add(steered.steering, one);
        object["steered_work"].push_back(std::move(one));
    }
}

std::vector<AskedAgain> read_asked_again(const JsonValue& sitting, const Paper& paper, Day today) {
    std::map<std::pair<std::string, int>, AskedAgain> asked;
    if (!sitting.has("asked_again"))
        return {};
    sitting.at("asked_again").each_element([&](const JsonValue& element) {
        element.check_keys({"question", "turn", "date"});
        const AskedAgain again{element.at("question").text(),
                               element.at("turn").whole_number(2, max_turn_asked),
                               read_past_day(element.at("date"), today, "asking for a question again")};
        element.checked([&] { check_fits(paper, again); });
        if (!asked.emplace(std::pair(again.question, again.turn), again).second)
            element.refuse("the turn appears twice");
    });
    std::vector<AskedAgain> all;
    for (auto& [key, again] : asked)
        all.push_back(std::move(again));
    return all;
}

void read_steering(const JsonValue& object, Day today, Candidate& candidate) {
    if (object.has("steered_retries")) {
        std::map<std::pair<SittingId, std::size_t>, SteeredRetry> known;
        object.at("steered_retries").each_element([&](const JsonValue& element) {
            SteeredRetry steered = read_steered_retry(element, candidate, today);
            const auto position =
                get_sitting(candidate, steered.sitting).paper->find_question(steered.question);
            if (!known.emplace(std::pair(steered.sitting, *position), std::move(steered)).second)
                element.refuse("the question appears twice");
        });
        for (auto& [key, steered] : known)
            candidate.steered_retries.push_back(std::move(steered));
    }
    if (object.has("steered_work")) {
        std::map<std::tuple<WorkPurpose, std::string, std::string>, SteeredWork> known;
        object.at("steered_work").each_element([&](const JsonValue& element) {
            const SteeredWork steered = read_steered_work(element, today);
            if (!known.emplace(std::tuple(steered.what, steered.subject, steered.name), steered).second)
                element.refuse("the " + std::string(steered.what == WorkPurpose::sit ? "paper" : "topic") +
                               " appears twice");
        });
        for (auto& [key, steered] : known)
            candidate.steered_work.push_back(std::move(steered));
    }
}

std::vector<AskedAgain> add_turns_asked(const SittingRecord& in_file, SittingRecord& merged) {
    std::vector<AskedAgain> added;
    for (const AskedAgain& again : in_file.asked_again) {
        const bool is_known =
            std::any_of(merged.asked_again.begin(), merged.asked_again.end(), [&](const AskedAgain& other) {
                return other.question == again.question && other.turn == again.turn;
            });
        if (!is_known)
            added.push_back(again);
    }
    merged.asked_again.insert(merged.asked_again.end(), added.begin(), added.end());
    return added;
}

void store_turns(Store::Change& change, SittingId sitting, const std::vector<AskedAgain>& turns) {
    for (const AskedAgain& again : turns)
        SteeringOnFile(change).ask_again(sitting, again);
}

void take_steering(Store::Change& change, const Candidate& here, const Candidate& in_file,
                   const MergeOptions& options, Merge& merge) {
    if (in_file.steered_retries.empty() && in_file.steered_work.empty())
        return;
    SteeringOnFile on_file(change);
    const Candidate merged = change.store().candidate(here.code);
    for (const SteeredRetry& steered : in_file.steered_retries) {
        const SittingRecord& there = get_sitting(in_file, steered.sitting);
        const SittingRecord* record = find_same(merged, there);
        if (!record || turn_of(*record, steered.question) != turn_of(there, steered.question))
            continue; // it went on here, or its paper is in conflict
        const std::string what = "candidate " + here.code + ", " + record->paper->id() + " of " +
                                 iso(record->sitting.day) + ": question " + steered.question;
        if (is_taken(what, steering_of(here, record->id, steered.question), steered.steering, options, merge))
            on_file.steer({record->id, steered.question, steered.steering});
    }
    for (const SteeredWork& steered : in_file.steered_work)
        if (is_taken("candidate " + here.code + ": " +
                         (steered.what == WorkPurpose::sit ? "paper " : "topic ") + steered.name,
                     steering_of(here, steered.what, steered.subject, steered.name), steered.steering,
                     options, merge))
            on_file.steer(here.code, steered);
}

} // namespace inkturn
