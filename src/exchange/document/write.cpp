#include "exchange/document/absences.hpp"
#include "exchange/document/awards.hpp"
#include "exchange/document/bank.hpp"
#include "exchange/document/closed_classes.hpp"
#include "exchange/document/copies.hpp"
#include "exchange/document/document.hpp"
#include "exchange/document/exams.hpp"
#include "exchange/document/facts.hpp"
#include "exchange/document/lessons.hpp"
#include "exchange/document/paper.hpp"
#include "exchange/document/plan.hpp"
#include "exchange/document/ratings.hpp"
#include "exchange/document/scripts.hpp"
#include "exchange/document/steering.hpp"
#include "exchange/document/times.hpp"
#include "exchange/json/value.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/reading.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

bool contains(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// The placements of a sitting's open turns, in the paper's order.
std::vector<Placement> open_placements(const SittingRecord& record, const RetryRule& rule,
                                       const std::map<std::pair<SittingId, std::string_view>, Day>& days) {
    std::vector<Placement> placements;
    for (const Question& question : record.paper->questions()) {
        const auto day = days.find({record.id, question.label});
        if (day != days.end() && open_turn(record, question, rule))
            placements.push_back({record.id, question.label, day->second});
    }
    return placements;
}

void sort_reattempts(SittingRecord& record) {
    const auto order = [&](const Reattempt& reattempt) {
        return std::pair(record.paper->find_question(reattempt.question), reattempt.turn);
    };
    std::sort(record.reattempts.begin(), record.reattempts.end(),
              [&](const Reattempt& a, const Reattempt& b) { return order(a) < order(b); });
}

/// The scripts without the store's order and row numbers; `numbers` has a sitting's number here by its row.
std::vector<Script> exported(std::vector<Script> scripts, const std::map<SittingId, SittingId>& numbers) {
    for (Script& script : scripts) {
        if (script.id.retry)
            script.id = script_id(
                RetryId{numbers.at(script.id.sitting), script.id.retry->question, script.id.retry->turn});
        else
            script.id = {};
    }
    sort_scripts(scripts);
    return scripts;
}

/// For which of the candidate's classes each sitting was imported, by its number in the document.
std::map<SittingId, std::vector<std::string>>
exported_sitting_classes(const Store& store, const std::vector<std::string>& classes,
                         const std::map<SittingId, SittingId>& numbers) {
    std::map<SittingId, std::vector<std::string>> of_sittings;
    for (const auto& [row, number] : numbers)
        for (std::string& name : store.classes_of(row))
            if (contains(classes, name))
                of_sittings[number].push_back(std::move(name));
    return of_sittings;
}

/// The candidate without the store's order and row numbers.
ExportedCandidate exported(const Store& store, Candidate candidate, std::vector<Script> scripts) {
    std::vector<std::string> classes = store.classes_of(candidate.code);
    std::map<std::pair<SittingId, std::string_view>, Day> days;
    for (const Placement& placement : candidate.placements)
        days[{placement.sitting, placement.question}] = placement.day;
    std::sort(candidate.sittings.begin(), candidate.sittings.end(),
              [](const SittingRecord& a, const SittingRecord& b) {
                  return std::tie(a.sitting.day, a.paper->id()) < std::tie(b.sitting.day, b.paper->id());
              });

    std::vector<Placement> placements;
    std::vector<SteeredRetry> steered;
    std::map<SittingId, SittingId> numbers;
    for (SittingRecord& record : candidate.sittings) {
        sort_reattempts(record);
        const SittingId id{static_cast<std::int64_t>(numbers.size()) + 1};
        numbers[record.id] = id;
        for (Placement& placement : open_placements(record, candidate.wishes.retries, days))
            placements.push_back({id, std::move(placement.question), placement.day});
        for (SteeredRetry& retry : exported_steering(candidate, record))
            steered.push_back({id, std::move(retry.question), std::move(retry.steering)});
        record.id = id;
    }
    candidate.placements = std::move(placements);
    candidate.steered_retries = std::move(steered);
    candidate.exams.clear();
    candidate.planned.clear();
    candidate.lessons.clear();
    candidate.availability.taken.clear();
    auto sitting_classes = exported_sitting_classes(store, classes, numbers);
    return {std::move(candidate),      std::move(classes), exported(std::move(scripts), numbers), {}, {},
            std::move(sitting_classes)};
}

/// Those of everybody and of the classes, each once, though it may be on file twice.
std::vector<Exam> exported_exams(const Store& store, const std::vector<std::string>& classes) {
    std::map<std::tuple<Day, std::string, std::string, std::string>, bool> known;
    for (const auto& [id, exam] : store.exams()) {
        if (!exam.of_class.empty() && !contains(classes, exam.of_class))
            continue;
        const auto [same, is_new] =
            known.emplace(std::tuple(exam.day, exam.subject, exam.title, exam.of_class), exam.mock);
        if (!is_new)
            same->second = same->second && exam.mock;
    }
    std::vector<Exam> exams;
    exams.reserve(known.size());
    for (const auto& [named, mock] : known)
        exams.push_back(
            {std::get<2>(named), std::get<0>(named), std::get<1>(named), mock, std::get<3>(named)});
    return exams;
}

std::map<std::string, StatedTimes> exported_class_times(const Store& store,
                                                        const std::vector<std::string>& classes) {
    std::map<std::string, StatedTimes> exported;
    for (const std::string& name : classes)
        if (const StatedTimes times = store.class_times(name); !times.is_empty())
            exported[name] = times;
    return exported;
}

bool has_anything_on_file(const ExportedCandidate& exported) {
    const Candidate& candidate = exported.candidate;
    return !candidate.sittings.empty() || !exported.scripts.empty() || !exported.sheets.empty() ||
           !exported.ratings.empty() || !exported.classes.empty() || !candidate.own_times.is_empty() ||
           !candidate.relearned.empty() || !candidate.wishes.is_default() ||
           !candidate.steered_work.empty() || candidate.extra_time;
}

bool asked_for_any(const std::vector<Lesson>& lessons, const std::string& code) {
    return std::any_of(lessons.begin(), lessons.end(),
                       [&](const Lesson& lesson) { return find_asked(lesson, code) != nullptr; });
}

/// Those for whom a set was printed or a paper drawn.
std::set<std::string> readers_of_sets(const Store& store) {
    std::set<std::string> codes;
    for (const PrintedSet& set : PrintedSets::all(store))
        codes.insert(set.candidate);
    return codes;
}

/// `facts` has a fact's number in the document by the one on file. Comes after the lessons.
void add_candidate(const Store& store, const std::string& code, const std::map<FactId, FactId>& facts,
                   const std::set<std::string>& readers, Document& document) {
    ExportedCandidate added = exported(store, store.candidate(code), Desk::scripts(store, code));
    added.sheets = exported_sheets(FactsOnFile::sheets(store, code), facts);
    added.ratings = PlanOnFile::ratings(store, code);
    added.absences = exported_absences(store, code, added.classes);
    if (has_anything_on_file(added) || asked_for_any(document.lessons, code) || readers.count(code) > 0)
        document.candidates.push_back(std::move(added));
}

void add_marks(const Part& part, const PartMarks& marks, Json::object_t& object) {
    object.emplace_back(part.label, to_text(marks)); // labels are unique
}

Json marks_by_label(const Paper& paper, const std::vector<PartMarks>& marks) {
    Json::object_t object;
    for (std::size_t i = 0; i < marks.size(); ++i)
        add_marks(paper.parts()[i], marks[i], object);
    return Json(std::move(object));
}

Json value_of(const std::vector<ClockEvent>& clock, const Paper& paper,
              const std::vector<std::size_t>& positions) {
    Json events = Json::array();
    for (const ClockEvent& event : clock) {
        Json object = {{"at", iso(event.at)}, {"event", name(event.kind)}};
        if (names_part(event.kind))
            object["part"] = paper.parts()[positions[event.part]].label;
        events.push_back(std::move(object));
    }
    return events;
}

/// Only if there are events.
void add_clock(const std::vector<ClockEvent>& clock, const Paper& paper,
               const std::vector<std::size_t>& positions, Json& object) {
    if (!clock.empty())
        object["clock"] = value_of(clock, paper, positions);
}

/// Only if there are some.
void add_notes(const Notes& notes, Json& object) {
    if (!notes.empty())
        object["notes"] = Json(notes);
}

Json value_of(const Paper& paper, const Reattempt& reattempt) {
    const Question& question = paper.questions()[*paper.find_question(reattempt.question)];
    Json::object_t marks;
    for (std::size_t i = 0; i < reattempt.parts.size(); ++i)
        add_marks(paper.parts()[question.parts[i]], reattempt.parts[i], marks);
    Json object = {{"question", reattempt.question},
                   {"turn", reattempt.turn},
                   {"date", iso(reattempt.day)},
                   {"marks", Json(std::move(marks))}};
    add_clock(reattempt.clock, paper, question.parts, object);
    add_notes(reattempt.notes, object);
    return object;
}

Json value_of(const SittingRecord& record, Json days) {
    Json reattempts = Json::array();
    for (const Reattempt& reattempt : record.reattempts)
        reattempts.push_back(value_of(*record.paper, reattempt));
    Json object = {{"paper", record.paper->id()},
                   {"date", iso(record.sitting.day)},
                   {"extra_time", record.sitting.extra_time.percent()},
                   {"marks", marks_by_label(*record.paper, record.sitting.parts)}};
    add_clock(record.sitting.clock, *record.paper, all_positions(*record.paper), object);
    add_notes(record.sitting.notes, object);
    add_asked_again(record, object);
    object["reattempts"] = std::move(reattempts);
    object["kept_days"] = std::move(days);
    return object;
}

Json value_of(const Script& script, const Candidate& candidate) {
    Json retry = nullptr;
    if (script.id.retry)
        retry = {{"sitting", iso(get_sitting(candidate, script.id.sitting).sitting.day)},
                 {"question", script.id.retry->question},
                 {"turn", script.id.retry->turn}};
    Json::object_t marks;
    for (std::size_t i = 0; i < script.marks.size(); ++i)
        marks.emplace_back(script.paper->parts()[script.positions[i]].label,
                           script.marks[i] ? Json(to_text(*script.marks[i])) : Json(nullptr));
    Json object = {{"paper", script.paper->id()},
                   {"date", iso(script.day)},
                   {"extra_time", script.extra_time.percent()},
                   {"retry", std::move(retry)},
                   {"marks", Json(std::move(marks))},
                   {"clock", value_of(script.events, *script.paper, script.positions)}};
    add_notes(script.notes, object);
    return object;
}

/// `facts` are the document's.
Json value_of(const ExportedCandidate& exported, const std::vector<Fact>& facts) {
    const Candidate& candidate = exported.candidate;
    Json sittings = Json::array();
    auto placement = candidate.placements.begin();
    for (const SittingRecord& record : candidate.sittings) {
        Json days = Json::object();
        for (; placement != candidate.placements.end() && placement->sitting == record.id; ++placement)
            days[placement->question] = iso(placement->day);
        sittings.push_back(value_of(record, std::move(days)));
        const auto classes = exported.sitting_classes.find(record.id);
        if (classes != exported.sitting_classes.end())
            sittings.back()["classes"] = classes->second;
    }
    Json object = {{"candidate", candidate.code},
                   {"classes", exported.classes},
                   {"availability", value_of(candidate.own_times)},
                   {"sittings", std::move(sittings)}};
    if (candidate.extra_time)
        object["extra_time"] = candidate.extra_time->percent();
    for (const Script& script : exported.scripts) // no key if there are none
        object["scripts"].push_back(value_of(script, candidate));
    add_sheets(exported.sheets, facts, object);
    add_plan(candidate, object);
    add_ratings(exported.ratings, object);
    add_absences(exported.absences, object);
    return object;
}

std::vector<Award> exported_awards(const Store& store) {
    std::vector<Award> awards = AwardsOnFile::all(store);
    std::sort(awards.begin(), awards.end(), [](const Award& a, const Award& b) { return a.name < b.name; });
    return awards;
}

std::vector<BoundarySet> exported_boundaries(const Store& store) {
    std::vector<BoundarySet> sets;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store))
        sets.push_back(std::move(on_file.set));
    return sets;
}

std::vector<Fact> facts_on_sheets(const Store& store, const std::string& candidate) {
    std::set<FactId> fact_ids;
    for (const Sheet& sheet : FactsOnFile::sheets(store, candidate))
        for (const Sheet::Row& row : sheet.rows)
            fact_ids.insert(row.fact);
    std::vector<Fact> facts = FactsOnFile::all(store);
    facts.erase(std::remove_if(facts.begin(), facts.end(),
                               [&](const Fact& fact) { return fact_ids.count(fact.id) == 0; }),
                facts.end());
    return facts;
}

/// Without the candidates, who are most of it.
Json frame_of(const Document& document) {
    Json papers = Json::array();
    for (const auto& paper : document.papers)
        papers.push_back(exported_json(*paper));
    Json exams = Json::array();
    for (const Exam& exam : document.exams)
        exams.push_back(value_of(exam));
    Json json{{"format", export_format},     {"version", export_version}, {"papers", std::move(papers)},
              {"candidates", Json::array()}, {"exams", std::move(exams)}, {"classes", document.classes}};
    for (const Award& award : document.awards)
        json["awards"].push_back(value_of(award));
    for (const BoundarySet& set : document.boundaries)
        json["boundaries"].push_back(value_of(set));
    if (!document.copies.empty())
        json["copies"] = value_of(document.copies);
    for (const auto& [name, times] : document.class_times)
        json["class_times"].push_back({{"class", name}, {"times", value_of(times)}});
    for (const ClosedClassFigures& figures : document.closed_classes)
        json["closed_classes"].push_back(value_of(figures));
    add_facts(document.facts, json);
    add_lessons(document.lessons, json);
    add_bank(document, json);
    return json;
}

/// Two levels in, as an element of a list of the root.
void add_element(std::string_view element, std::string& text) {
    constexpr std::string_view indented = "\n    ";
    text += indented;
    for (std::size_t end = 0; (end = element.find('\n')) != std::string_view::npos;
         element.remove_prefix(end + 1)) {
        text += element.substr(0, end);
        text += indented;
    }
    text += element;
}

/// One by one, so that never all of them are in memory as JSON.
void add_candidates(const Document& document, const HowFar& told, std::string& text) {
    std::size_t written = 0;
    for (const ExportedCandidate& candidate : document.candidates) {
        if (written > 0)
            text += ',';
        add_element(text_of(value_of(candidate, document.facts)), text);
        tell(told, ++written, document.candidates.size());
    }
    if (written > 0)
        text += "\n  ";
}

} // namespace

Document document_of(const Store& store, WithPictures pictures, const HowFar& told) {
    const Reading whole(store);
    Document document;
    document.papers = store.papers();
    document.copies = exported_copies(store, document.papers);
    std::map<FactId, FactId> numbers;
    document.facts = exported_facts(FactsOnFile::all(store), numbers);
    document.lessons = exported_lessons(store, std::nullopt);
    const std::vector<std::string> codes = store.candidates();
    const std::set<std::string> readers = readers_of_sets(store);
    std::size_t taken = 0;
    for (const std::string& code : codes) {
        add_candidate(store, code, numbers, readers, document);
        tell(told, ++taken, codes.size());
    }
    for (ClassOnFile& on_file : store.classes())
        document.classes.push_back(std::move(on_file.name));
    document.exams = exported_exams(store, document.classes);
    document.class_times = exported_class_times(store, document.classes);
    document.closed_classes = ClosedClasses::all(store);
    document.awards = exported_awards(store);
    document.boundaries = exported_boundaries(store);
    add_bank(store, true, document);
    if (pictures == WithPictures::yes)
        add_pictures(store, std::nullopt, document);
    return document;
}

Document document_of(const Store& store, const std::string& candidate, WithPictures pictures) {
    const Reading whole(store);
    Document document;
    std::map<FactId, FactId> numbers;
    document.facts = exported_facts(facts_on_sheets(store, candidate), numbers);
    document.lessons = exported_lessons(store, candidate);
    add_candidate(store, candidate, numbers, readers_of_sets(store), document);
    if (!document.candidates.empty())
        document.classes = document.candidates[0].classes;
    document.exams = exported_exams(store, document.classes);
    document.class_times = exported_class_times(store, document.classes);
    document.awards = exported_awards(store);
    document.boundaries = exported_boundaries(store);
    if (document.candidates.empty())
        return document;
    PapersById sat;
    for (const SittingRecord& record : document.candidates[0].candidate.sittings)
        sat[record.paper->id()] = record.paper;
    for (const Script& script : document.candidates[0].scripts)
        sat[script.paper->id()] = script.paper;
    for (const Absence& absence : document.candidates[0].absences)
        sat[absence.paper] = store.find_paper(absence.paper);
    const SetReaders readers{{candidate}, {document.classes.begin(), document.classes.end()}};
    for (const PrintedSet& set : sets_for(readers, PrintedSets::all(store)))
        sat[set.paper] = store.find_paper(set.paper);
    std::set<std::string> own;
    for (const auto& [id, paper] : sat)
        own.insert(id);
    add_sources(store, sat);
    for (const auto& [id, paper] : sat)
        document.papers.push_back(paper);
    document.copies = exported_copies(store, document.papers);
    add_bank(store, false, document);
    if (pictures == WithPictures::yes)
        add_pictures(store, own, document);
    return document;
}

std::string to_text(const Document& document, const HowFar& told) {
    constexpr std::string_view opened = "\n  \"candidates\": ["; // texts have no line breaks of their own
    const std::string frame = text_of(frame_of(document));
    const std::size_t place = frame.find(opened) + opened.size();
    std::string text = frame.substr(0, place);
    add_candidates(document, told, text);
    return text.append(frame, place) + '\n';
}

} // namespace inkturn
