#include "exchange/document/bank.hpp"
#include "exchange/document/document.hpp"

#include "exchange/document/absences.hpp"
#include "exchange/document/attempt.hpp"
#include "exchange/document/awards.hpp"
#include "exchange/document/closed_classes.hpp"
#include "exchange/document/copies.hpp"
#include "exchange/document/exams.hpp"
#include "exchange/document/facts.hpp"
#include "exchange/document/lessons.hpp"
#include "exchange/document/paper.hpp"
#include "exchange/document/plan.hpp"
#include "exchange/document/ratings.hpp"
#include "exchange/document/scripts.hpp"
#include "exchange/document/steering.hpp"
#include "exchange/document/strict_json.hpp"
#include "exchange/document/times.hpp"
#include "exchange/document/version.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <istream>
#include <map>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr int max_turn = 9999; ///< as in a retry's id

/// A sitting with its re-attempts and the days of its open turns. Its keys are checked before.
class SittingReader {
  public:
    SittingReader(const JsonValue& value, std::shared_ptr<const Paper> paper, Day today)
        : paper_(*paper), today_(today), by_question_(paper->questions().size()) {
        record_.paper = std::move(paper);
        record_.sitting.day = read_past_day(value.at("date"), today, "a sitting");
        record_.sitting.extra_time = read_extra_time(value.at("extra_time"));
        const std::vector<std::size_t> positions = all_positions(paper_);
        record_.sitting.parts = read_marks(value.at("marks"), paper_, positions);
        value.checked([&] { check_set(paper_, record_.sitting.parts); });
        count_chosen(paper_, record_.sitting.parts);
        record_.sitting.clock = read_whole_clock(value, paper_, positions, today);
        record_.sitting.notes = read_notes(value, paper_, positions);
        record_.asked_again = read_asked_again(value, paper_, today);
        value.at("reattempts").each_element([&](const JsonValue& reattempt) { read_reattempt(reattempt); });
        for (std::vector<Reattempt>& reattempts : by_question_)
            for (Reattempt& reattempt : reattempts)
                record_.reattempts.push_back(std::move(reattempt));
        value.at("kept_days").each_member([&](const std::string& question, const JsonValue& day) {
            read_placement(day, question);
        });
    }

    Day day() const { return record_.sitting.day; }

    /// As the next of the candidate's sittings.
    void move_into(Candidate& candidate) {
        record_.id = SittingId{static_cast<std::int64_t>(candidate.sittings.size()) + 1};
        for (const auto& [question, day] : days_)
            candidate.placements.push_back({record_.id, paper_.questions()[question].label, day});
        candidate.sittings.push_back(std::move(record_));
    }

  private:
    void read_reattempt(const JsonValue& value) {
        value.check_keys({"question", "turn", "date", "marks"}, {"clock", "notes"});
        const JsonValue label = value.at("question");
        const std::size_t position = read_question(label, label.text(), paper_);
        const Question& question = paper_.questions()[position];
        std::vector<Reattempt>& earlier = by_question_[position];
        Reattempt reattempt{question.label,
                            value.at("turn").whole_number(1, max_turn),
                            read_past_day(value.at("date"), today_, "a re-attempt"),
                            read_marks(value.at("marks"), paper_, question.parts),
                            read_whole_clock(value, paper_, question.parts, today_),
                            read_notes(value, paper_, question.parts)};
        value.checked([&] {
            check_follows(paper_, question, record_.sitting, earlier, record_.asked_again, reattempt);
        });
        earlier.push_back(std::move(reattempt));
    }

    void read_placement(const JsonValue& value, const std::string& label) {
        const std::size_t position = read_question(value, label, paper_);
        if (!turn_to_follow(record_, paper_.questions()[position]))
            value.refuse("question " + label + " is not open, so no day is kept for it");
        days_[position] = read_day(value);
    }

    const Paper& paper_;
    Day today_;
    SittingRecord record_;
    std::vector<std::vector<Reattempt>> by_question_;
    std::map<std::size_t, Day> days_; ///< by position of the question
};

/// Of one of the candidate's sittings. Whether the turn is open is checked when it is marked: the sitting may
/// have been amended since the retry was begun.
RetryId read_retry(const JsonValue& value, const Candidate& candidate, const Paper& paper) {
    value.check_keys({"sitting", "question", "turn"});
    const JsonValue sat_on = value.at("sitting");
    const Day day = read_day(sat_on);
    const auto record =
        std::find_if(candidate.sittings.begin(), candidate.sittings.end(), [&](const SittingRecord& sitting) {
            return sitting.paper->id() == paper.id() && sitting.sitting.day == day;
        });
    if (record == candidate.sittings.end())
        sat_on.refuse("candidate " + candidate.code + " has no sitting of " + paper.id() + " on " + iso(day));
    const JsonValue label = value.at("question");
    const std::size_t question = read_question(label, label.text(), paper);
    return {record->id, paper.questions()[question].label, value.at("turn").whole_number(1, max_turn)};
}

/// Comes after the candidate's sittings.
Script read_script(const JsonValue& value, const Candidate& candidate, std::shared_ptr<const Paper> of,
                   Day today) {
    const Paper& paper = *of;
    Script script =
        blank_script(candidate.code, std::move(of), read_past_day(value.at("date"), today, "a script"),
                     read_extra_time(value.at("extra_time")));
    const JsonValue retry = value.at("retry");
    if (!retry.is_null()) {
        script.id = script_id(read_retry(retry, candidate, paper));
        script.positions = paper.questions()[*paper.find_question(script.id.retry->question)].parts;
    }
    const JsonValue marks = value.at("marks");
    script.marks = read_script_marks(marks, paper, script.positions);
    script.events = read_clock(value.at("clock"), paper, script.positions, today);
    script.notes = read_notes(value, paper, script.positions);
    if (script.is_marked())
        marks.refuse("every part is marked: that is a sitting or a re-attempt, not a script");
    if (!script.is_handed_in() && std::any_of(script.marks.begin(), script.marks.end(),
                                              [](const auto& part) { return part && part->is_set(); }))
        marks.refuse("the clock is running: nothing is marked before the hand in");
    return script;
}

class DocumentReader {
  public:
    DocumentReader(Day today, HowFar told) : today_(today), told_(std::move(told)) {}

    /// The candidates' objects are still text.
    Document read(const JsonValue& root, const std::vector<std::string_view>& candidates) {
        root.check_keys({"format", "version", "papers", "candidates", "exams", "classes"},
                        {"awards", "boundaries", "copies", "facts", "lessons", "class_times",
                         "closed_classes", "topic_lists", "sets", "pictures"});
        root.at("papers").each_element([&](const JsonValue& value) { take_paper(value); });
        root.at("classes").each_element([&](const JsonValue& value) { take_class(value); });
        root.at("exams").each_element([&](const JsonValue& value) { take_exam(value); });
        if (root.has("class_times"))
            root.at("class_times").each_element([&](const JsonValue& value) { take_class_times(value); });
        if (root.has("awards"))
            root.at("awards").each_element([&](const JsonValue& value) { take_award(value); });
        if (root.has("boundaries"))
            root.at("boundaries").each_element([&](const JsonValue& value) { take_boundaries(value); });
        if (root.has("copies"))
            document_.copies = read_copies(root.at("copies"), papers_);
        if (root.has("facts"))
            facts_.read_facts(root.at("facts"));
        root.at("candidates").each_element([&](const JsonValue& value) {
            const std::string_view text = candidates[document_.candidates.size()];
            take_candidate(text.empty() ? value : value.read_as(read_left(text, value)));
            tell(told_, document_.candidates.size(), candidates.size());
        });
        if (root.has("closed_classes"))
            document_.closed_classes = read_closed_classes(root.at("closed_classes"), papers_, today_);
        for (const auto& [id, paper] : papers_)
            document_.papers.push_back(paper);
        document_.classes.assign(classes_.begin(), classes_.end());
        for (const auto& [named, mock] : exams_)
            document_.exams.push_back(
                {std::get<2>(named), std::get<0>(named), std::get<1>(named), mock, std::get<3>(named)});
        for (auto& [name, award] : awards_)
            document_.awards.push_back(std::move(award));
        for (auto& [name, set] : boundaries_)
            document_.boundaries.push_back(std::move(set));
        document_.facts = facts_.facts();
        if (root.has("lessons"))
            document_.lessons = read_lessons(root.at("lessons"), today_);
        std::sort(document_.candidates.begin(), document_.candidates.end(),
                  [](const auto& a, const auto& b) { return a.candidate.code < b.candidate.code; });
        read_bank(root, papers_, document_);
        return std::move(document_);
    }

  private:
    void take_paper(const JsonValue& value) {
        auto paper = read_paper(value);
        const std::string id = paper->id();
        read_paper_of_bank(value, *paper, document_);
        if (!papers_.emplace(id, std::move(paper)).second)
            value.refuse("paper " + id + " appears twice");
    }

    void take_class(const JsonValue& value) {
        value.checked([&, &name = value.text()] { check_class_name(name); });
        if (!classes_.insert(value.text()).second)
            value.refuse("class " + value.text() + " appears twice");
    }

    void take_exam(const JsonValue& value) {
        const Exam exam = read_exam(value);
        if (!exam.of_class.empty())
            check_class(value.at("class"));
        if (!exams_.emplace(std::tuple(exam.day, exam.subject, exam.title, exam.of_class), exam.mock).second)
            value.refuse("the exam appears twice");
    }

    void take_class_times(const JsonValue& value) {
        value.check_keys({"class", "times"});
        const JsonValue name = value.at("class");
        check_class(name);
        StatedTimes times = read_times(value.at("times"));
        if (times.is_empty())
            value.at("times").refuse("no time is set: leave the class out");
        if (!document_.class_times.emplace(name.text(), std::move(times)).second)
            name.refuse("class " + name.text() + " appears twice");
    }

    void check_class(const JsonValue& name) const {
        if (classes_.count(name.text()) == 0)
            name.refuse("class " + name.text() + " is not among the document's classes");
    }

    void take_award(const JsonValue& value) {
        Award award = read_award(value);
        const std::string name = award.name;
        if (!awards_.emplace(name, std::move(award)).second)
            value.refuse("award " + name + " appears twice");
    }

    void take_boundaries(const JsonValue& value) {
        BoundarySet set = read_boundary_set(value);
        check_award_of(value, set);
        const std::tuple name{set.subject, set.award, set.name, set.component};
        if (!boundaries_.emplace(name, std::move(set)).second)
            value.refuse("the boundary set appears twice");
    }

    void check_award_of(const JsonValue& value, const BoundarySet& set) const {
        if (set.award.empty())
            return;
        const auto award = awards_.find(set.award);
        if (award == awards_.end())
            value.at("award").refuse("award " + set.award + " is not among the document's awards");
        if (set.subject != award->second.subject)
            value.at("subject").refuse("it is not that of the award");
        value.checked([&] { check_is_of(set, award->second); });
    }

    void take_candidate(const JsonValue& value) {
        value.check_keys({"candidate", "classes", "availability", "sittings"},
                         {"absences", "extra_time", "scripts", "sheets", "relearned_topics", "topic_ratings",
                          "plan_wishes", "steered_retries", "steered_work"});
        ExportedCandidate taken;
        Candidate& candidate = taken.candidate;
        const JsonValue code = value.at("candidate");
        candidate.code = code.text();
        if (hidden_character(candidate.code))
            code.refuse(
                "candidate '" + candidate.code +
                "' has a character that shows nothing: where it comes from, give it another code with "
                "'inkturn candidate rename' and export it again");
        code.checked([&] { check_candidate_code(candidate.code); });
        if (!codes_.insert(candidate.code).second)
            code.refuse("candidate " + candidate.code + " appears twice");
        taken.classes = read_classes(value.at("classes"));
        if (value.has("extra_time"))
            candidate.extra_time = read_extra_time(value.at("extra_time"));
        if (value.has("absences"))
            taken.absences = read_absences(value.at("absences"), papers_, taken.classes, today_);
        candidate.own_times = read_times(value.at("availability"));
        take_sittings(value.at("sittings"), taken);
        if (value.has("scripts"))
            taken.scripts = read_scripts(value.at("scripts"), candidate);
        if (value.has("sheets"))
            taken.sheets = facts_.read_sheets(value.at("sheets"), today_);
        if (value.has("topic_ratings"))
            taken.ratings = read_ratings(value.at("topic_ratings"), today_);
        read_plan(value, today_, candidate);
        document_.candidates.push_back(std::move(taken));
    }

    std::vector<std::string> read_classes(const JsonValue& value) {
        std::set<std::string> names;
        value.each_element([&](const JsonValue& name) {
            check_class(name);
            if (!names.insert(name.text()).second)
                name.refuse("class " + name.text() + " appears twice");
        });
        return {names.begin(), names.end()};
    }

    void take_sittings(const JsonValue& value, ExportedCandidate& taken) {
        Candidate& candidate = taken.candidate;
        std::map<std::pair<Day, std::string>, SittingReader> sittings;
        std::map<std::pair<Day, std::string>, std::vector<std::string>> classes;
        value.each_element([&](const JsonValue& sitting) {
            sitting.check_keys({"paper", "date", "extra_time", "marks", "reattempts", "kept_days"},
                               {"clock", "notes", "asked_again", "classes"});
            const auto paper = get_paper(papers_, sitting.at("paper"));
            SittingReader read(sitting, paper, today_);
            const Day day = read.day();
            if (!sittings.emplace(std::pair(day, paper->id()), std::move(read)).second)
                sitting.refuse("candidate " + candidate.code + " has another sitting of " + paper->id() +
                               " on " + iso(day));
            if (sitting.has("classes"))
                classes[{day, paper->id()}] = read_classes(sitting.at("classes"));
        });
        for (auto& [key, sitting] : sittings) {
            sitting.move_into(candidate);
            if (const auto of_sitting = classes.find(key); of_sitting != classes.end())
                taken.sitting_classes[candidate.sittings.back().id] = of_sitting->second;
        }
    }

    std::vector<Script> read_scripts(const JsonValue& value, const Candidate& candidate) const {
        std::vector<Script> scripts;
        std::set<std::pair<std::string, Day>> papers;
        std::set<std::string> retries;
        value.each_element([&](const JsonValue& element) {
            element.check_keys({"paper", "date", "extra_time", "retry", "marks", "clock"}, {"notes"});
            Script script = read_script(element, candidate, get_paper(papers_, element.at("paper")), today_);
            const bool is_new = script.id.retry ? retries.insert(to_text(script.id)).second
                                                : papers.emplace(script.paper->id(), script.day).second;
            if (!is_new)
                element.refuse("candidate " + candidate.code + " has another script of the same work");
            scripts.push_back(std::move(script));
        });
        sort_scripts(scripts);
        return scripts;
    }

    Day today_;
    HowFar told_;
    Document document_;
    PapersById papers_;
    std::set<std::string> classes_;
    std::set<std::string> codes_;
    /// By day, subject, title and class: a mock.
    std::map<std::tuple<Day, std::string, std::string, std::string>, bool> exams_;
    std::map<std::string, Award> awards_; ///< by name
    /// By subject, award, name and component.
    std::map<std::tuple<std::string, std::string, std::string, std::string>, BoundarySet> boundaries_;
    FactsReader facts_;
};

} // namespace

Document read_document(std::istream& in, Day today, const HowFar& told) {
    constexpr double text_read = 0.1; // of the time, about
    constexpr double gone_through = 0.3;
    const std::string text = document_text(in);
    const PartlyReadJson json = read_json(text, "candidates", part_of(told, text_read, gone_through));
    const int version = read_version(JsonValue(json.root));
    return DocumentReader(today, part_of(told, gone_through, 1))
        .read(JsonValue(json.root, older_keys(version)), json.left);
}

} // namespace inkturn
