#include "cli/next_words.hpp"

#include "cli/subjects.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/paper/reason.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/lessons.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace inkturn {
namespace {

template <typename Id>
std::string number_text(Id id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

bool begins(const std::string& text, std::string_view beginning) {
    return text.rfind(beginning, 0) == 0;
}

/// `full|none`: each that is typed as it stands.
NextWords listed_words(const std::string& kind) {
    NextWords words;
    for (std::size_t start = 0, end = 0; end != std::string::npos; start = end + 1) {
        end = kind.find('|', start);
        const std::string word = kind.substr(start, end - start);
        if (!word.empty() && is_lower(word.front()))
            words.push_back({word});
    }
    return words;
}

NextWords papers(const Store& store) {
    NextWords words;
    for (const auto& paper : store.papers())
        words.push_back({paper->id(), paper->title().empty() ? paper->subject() : paper->title()});
    return words;
}

NextWords candidates(const Store& store, const std::string& of_class) {
    NextWords words;
    for (const std::string& code :
         of_class.empty() || !store.has_class(of_class) ? store.candidates() : store.members(of_class))
        words.push_back({code});
    return words;
}

NextWords classes(const Store& store) {
    NextWords words;
    for (const ClassOnFile& one : store.classes())
        words.push_back({one.name, count_text(one.members, "member")});
    return words;
}

NextWords subjects(const Store& store) {
    NextWords words;
    for (const std::string& subject : subjects_on_file(store))
        words.push_back({subject});
    return words;
}

NextWords topics(const Store& store) {
    std::map<std::string, std::set<std::string>> subjects_of_topic;
    for (const auto& paper : store.papers())
        for (const Part& part : paper->parts())
            if (!part.topic.empty())
                subjects_of_topic[part.topic].insert(paper->subject());
    NextWords words;
    for (const auto& [topic, subjects] : subjects_of_topic)
        words.push_back({topic, joined({subjects.begin(), subjects.end()}, ", ")});
    return words;
}

NextWords topics_of_facts(const Store& store) {
    std::set<std::string> names;
    for (const Fact& fact : FactsOnFile::all(store))
        if (!fact.topic.empty())
            names.insert(fact.topic);
    NextWords words;
    for (const std::string& name : names)
        words.push_back({name});
    return words;
}

NextWords retries(const Store& store, const Context& context) {
    NextWords words;
    for (const Retry& retry :
         retries_to_place(store.candidate(context.candidate_code()), context.date_today()))
        words.push_back({to_text(retry.id), "question " + retry.id.question + " of " + retry.paper->id() +
                                                (retry.late ? ", late" : "")});
    return words;
}

/// Sittings on file, those still to mark among them.
NextWords sittings(const Store& store, const Context& context) {
    const Candidate candidate = store.candidate(context.candidate_code());
    NextWords words;
    for (const Script& script : Desk::scripts(store, candidate.code))
        words.push_back({to_text(script.id), script.paper->id() + ", to mark"});
    for (auto record = candidate.sittings.rbegin(); record != candidate.sittings.rend(); ++record)
        words.push_back(
            {number_text(record->id), record->paper->id() + " on " + date_text(record->sitting.day)});
    return words;
}

NextWords lessons(const Store& store) {
    NextWords words;
    for (const Lesson& lesson : LessonsOnFile::all(store))
        words.push_back({lesson.id, date_text(lesson.day) + ": " + topics_text(lesson.topics)});
    return words;
}

NextWords exams(const Store& store) {
    NextWords words;
    for (const auto& [id, exam] : store.exams())
        words.push_back({number_text(id), exam.title + ", " + date_text(exam.day)});
    return words;
}

NextWords sheets(const Store& store, const Context& context) {
    NextWords words;
    for (const Sheet& sheet : FactsOnFile::sheets(store, context.candidate_code()))
        words.push_back({to_text(sheet.id), date_text(sheet.day) + (sheet.log ? ", logged" : "")});
    return words;
}

NextWords facts(const Store& store) {
    NextWords words;
    for (const Fact& fact : FactsOnFile::all(store))
        words.push_back({number_text(fact.id), fact.prompt});
    return words;
}

NextWords pictures(const Store& store) {
    NextWords words;
    for (const PictureOnFile& picture : store.pictures())
        words.push_back({number_text(picture.id), picture.paper + " " + picture.question});
    return words;
}

NextWords boundary_sets(const Store& store) {
    NextWords words;
    for (const auto& [id, set] : BoundarySets::all(store))
        words.push_back({number_text(id), set.name});
    return words;
}

NextWords days() {
    NextWords words{{"today"}, {"tomorrow"}, {"yesterday"}};
    for (unsigned i = 0; i < 7; ++i)
        words.push_back({std::string(weekday_name(i))});
    return words;
}

/// What the words typed so far are about: the paper itself, or a sitting's, or a retry's.
std::shared_ptr<const Paper> paper_meant(const Store& store, const NextWordRequest& request,
                                         const Context& context) {
    if (request.typed.empty())
        return nullptr;
    const std::string& named = request.typed.front();
    const Candidate candidate = store.candidate(context.candidate_code());
    for (const SittingRecord& record : candidate.sittings)
        if (begins(named, number_text(record.id) + "q") || named == number_text(record.id))
            return record.paper;
    for (const Script& script : Desk::scripts(store, candidate.code))
        if (to_text(script.id) == named)
            return script.paper;
    return store.find_paper(named);
}

/// Of a retry `12q7` only the parts of question 7.
bool is_asked_for(const NextWordRequest& request, const Part& part) {
    const std::string& named = request.typed.front();
    const std::size_t sign = named.find('q');
    return request.command != "retry" || sign == std::string::npos ||
           question_of(part.label) == named.substr(sign + 1, named.find('t', sign) - sign - 1);
}

std::string max_text(Marks max) {
    return count_text(static_cast<std::size_t>(max.count()), "mark");
}

NextWords parts(const Store& store, const NextWordRequest& request, const Context& context) {
    NextWords words;
    if (const auto paper = paper_meant(store, request, context))
        for (const Part& part : paper->parts())
            if (is_asked_for(request, part))
                words.push_back(
                    {part.label + "=", max_text(part.max) + (part.topic.empty() ? "" : ", " + part.topic)});
    return words;
}

/// `2b=1:` goes on with a reason.
NextWords entries(const Store& store, const NextWordRequest& request, const Context& context) {
    const std::size_t colon = request.word.find(':');
    if (request.word.find('=') == std::string::npos || colon == std::string::npos)
        return parts(store, request, context);
    NextWords words;
    for (const Reason reason : all_reasons)
        words.push_back({request.word.substr(0, colon + 1) + std::string(name(reason))});
    return words;
}

NextWords questions(const Store& store, const NextWordRequest& request) {
    NextWords words;
    if (const auto paper = request.typed.empty() ? nullptr : store.find_paper(request.typed.front()))
        for (const Question& question : paper->questions())
            words.push_back({question.label, max_text(question.marks)});
    return words;
}

/// `ID` names what the command is about; after --id it is a new one.
NextWords ids(const std::string& option, const NextWordRequest& request, const Store& store) {
    if (option == "--paper")
        return papers(store);
    return begins(request.command, "lesson") && option != "--id" && request.command != "lesson add"
               ? lessons(store)
               : NextWords();
}

} // namespace

NextWords next_words_of(const std::string& option, const std::string& kind, const NextWordRequest& request,
                        const Context& context) {
    if (begins(kind, "FILE") || begins(kind, "FOLDER"))
        return {{names_of_files}};
    if (kind == "D" || kind == "DATE" || kind == "D...")
        return days();
    if (kind.find('|') != std::string::npos)
        return listed_words(kind);
    const Store store = context.store_to_read();
    if (kind == "ID")
        return ids(option, request, store);
    if (kind == "PAPER")
        return papers(store);
    if (kind == "CODE" || kind == "CODE...")
        return candidates(store, request.of_class);
    if (kind == "CLASS")
        return classes(store);
    if (option == "--subject")
        return subjects(store);
    if (option == "--topic" || kind == "TOPIC")
        return begins(request.command, "facts") ? topics_of_facts(store) : topics(store);
    if (kind == "RETRY")
        return retries(store, context);
    if (kind == "SITTING")
        return sittings(store, context);
    if (kind == "ENTRY")
        return entries(store, request, context);
    if (option == "--note" || kind == "PART:topic=TOPIC")
        return parts(store, request, context);
    if (kind == "QUESTION")
        return questions(store, request);
    if (kind == "EXAM")
        return exams(store);
    if (kind == "SHEET")
        return sheets(store, context);
    if (kind == "FACT")
        return facts(store);
    if (kind == "PICTURE")
        return pictures(store);
    if (kind == "SET")
        return boundary_sets(store);
    return {};
}

} // namespace inkturn
