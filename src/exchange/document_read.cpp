#include "exchange/document.hpp"

#include "exchange/strict_json.hpp"
#include "inkturn/codes.hpp"
#include "inkturn/label.hpp"

#include <algorithm>
#include <istream>
#include <iterator>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr int seconds_a_day = 86400;
constexpr int most_turns = 9999;        ///< as in a retry's id
constexpr int highest_number = 1000000; ///< of what a rule of the core bounds closer

std::string text_of(std::istream& in) {
    std::string text(std::istreambuf_iterator<char>(in), {});
    if (in.bad())
        throw Error("the file could not be read to its end; take a fresh copy");
    return text;
}

/// First of all, so that any other file is told so, and a newer one is not called damaged.
void check_format(const JsonValue& root) {
    if (!root.has("format") || !root.has("version") || root.at("format").text() != export_format)
        throw Error("that is no export of inkturn; 'inkturn export' writes one");
    const JsonValue version = root.at("version");
    if (version.whole_number(1, highest_number) > export_version)
        version.refuse("written by a newer inkturn: this one reads version " +
                       std::to_string(export_version) + ", so bring it up to date");
}

Day read_day(const JsonValue& value) {
    const auto day = read_iso_day(value.text());
    if (!day)
        value.refuse(why_no_day(value.text()));
    return *day;
}

Day read_past_day(const JsonValue& value, Day today, const std::string& what) {
    const Day day = read_day(value);
    value.checked([&] { check_has_happened(day, today, what); });
    return day;
}

Seconds read_available(const JsonValue& value) {
    return Seconds(value.whole_number(0, seconds_a_day));
}

/// A label in its short form, the only one that is written.
const std::string& read_short_label(const JsonValue& value) {
    const std::string& label = value.text();
    if (value.checked([&] { return parse_label(label); }) != label)
        value.refuse("'" + label + "' is not the short form: write " + parse_label(label));
    return label;
}

Part read_part(const JsonValue& value) {
    value.check_keys({"part", "marks", "topic", "codes"});
    return {read_short_label(value.at("part")), Marks(value.at("marks").whole_number(1, highest_number)),
            value.at("topic").text(), value.at("codes").text()};
}

RetryBy read_retry_by(const JsonValue& value) {
    const auto by = retry_by_named(value.text());
    if (!by)
        value.refuse("'" + value.text() + "' is neither question nor part");
    return *by;
}

std::shared_ptr<const Paper> read_paper(const JsonValue& value) {
    value.check_keys({"paper", "title", "subject", "duration_seconds", "retry_by", "parts"});
    PaperHead head{value.at("paper").text(), value.at("title").text(), value.at("subject").text(),
                   std::nullopt, read_retry_by(value.at("retry_by"))};
    const JsonValue duration = value.at("duration_seconds");
    if (!duration.is_null())
        head.duration = Seconds(duration.whole_number(0, highest_number));
    std::vector<Part> parts;
    value.at("parts").each_element([&](const JsonValue& part) { parts.push_back(read_part(part)); });
    return value.checked([&] { return std::make_shared<const Paper>(std::move(head), std::move(parts)); });
}

/// The marks of the parts at `positions`, ascending: each is named, and no other.
std::vector<PartMarks> read_marks(const JsonValue& value, const Paper& paper,
                                  const std::vector<std::size_t>& positions) {
    std::vector<std::optional<PartMarks>> found(positions.size());
    value.each_member([&](const std::string& label, const JsonValue& text) {
        const auto part = paper.find_part(label);
        if (!part)
            text.refuse("paper " + paper.id() + " has no such part");
        const auto position = std::lower_bound(positions.begin(), positions.end(), *part);
        if (position == positions.end() || *position != *part)
            text.refuse("the part does not belong to the question that is retried");
        found[static_cast<std::size_t>(position - positions.begin())] =
            text.checked([&, &written = text.text()] {
                const PartMarks marks = parse_part_marks(written, paper.parts()[*part].max);
                check_by_code(marks, paper.parts()[*part]);
                return marks;
            });
    });
    std::vector<PartMarks> marks;
    marks.reserve(positions.size());
    for (std::size_t i = 0; i < positions.size(); ++i) {
        if (!found[i])
            value.refuse("no marks for part " + paper.parts()[positions[i]].label + " of paper " +
                         paper.id());
        marks.push_back(*found[i]);
    }
    return marks;
}

std::vector<PartMarks> read_marks(const JsonValue& value, const Paper& paper) {
    std::vector<std::size_t> positions(paper.parts().size());
    std::iota(positions.begin(), positions.end(), std::size_t{0});
    return read_marks(value, paper, positions);
}

std::size_t read_question(const JsonValue& value, const std::string& label, const Paper& paper) {
    const auto question = paper.find_question(label);
    if (!question)
        value.refuse("paper " + paper.id() + " has no question " + label + " to retry");
    return *question;
}

/// A sitting with its re-attempts and the days of its open turns, whose members are checked to be there.
class SittingReader {
  public:
    SittingReader(const JsonValue& value, std::shared_ptr<const Paper> paper, Day today)
        : paper_(*paper), today_(today), by_question_(paper->questions().size()) {
        record_.paper = std::move(paper);
        record_.sitting.day = read_past_day(value.at("date"), today, "a sitting");
        record_.sitting.extra_time =
            ExtraTime(value.at("extra_time").whole_number(0, ExtraTime::most_percent));
        record_.sitting.parts = read_marks(value.at("marks"), paper_);
        value.at("retries").each_element([&](const JsonValue& retry) { read_reattempt(retry); });
        for (std::vector<Reattempt>& reattempts : by_question_)
            for (Reattempt& reattempt : reattempts)
                record_.reattempts.push_back(std::move(reattempt));
        value.at("days").each_member(
            [&](const std::string& question, const JsonValue& day) { read_placement(day, question); });
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
        value.check_keys({"question", "turn", "date", "marks"});
        const JsonValue label = value.at("question");
        const std::size_t position = read_question(label, label.text(), paper_);
        const Question& question = paper_.questions()[position];
        std::vector<Reattempt>& earlier = by_question_[position];
        Reattempt reattempt{question.label, value.at("turn").whole_number(1, most_turns),
                            read_past_day(value.at("date"), today_, "a re-attempt"),
                            read_marks(value.at("marks"), paper_, question.parts)};
        value.checked([&] { check_follows(paper_, question, record_.sitting, earlier, reattempt); });
        earlier.push_back(std::move(reattempt));
    }

    void read_placement(const JsonValue& value, const std::string& label) {
        const std::size_t position = read_question(value, label, paper_);
        if (!open_turn(paper_, paper_.questions()[position], record_.sitting, record_.reattempts))
            value.refuse("question " + label + " is not open, so no day is kept for it");
        days_[position] = read_day(value);
    }

    const Paper& paper_;
    Day today_;
    SittingRecord record_;
    std::vector<std::vector<Reattempt>> by_question_;
    std::map<std::size_t, Day> days_; ///< by position of the question
};

Availability read_availability(const JsonValue& value) {
    Availability availability;
    if (value.is_null())
        return availability;
    value.check_keys({"week_seconds", "dates"});
    const JsonValue week = value.at("week_seconds");
    week.check_keys({"mon", "tue", "wed", "thu", "fri", "sat", "sun"});
    for (unsigned i = 0; i < availability.week.size(); ++i)
        availability.week[i] = read_available(week.at(weekday_name(i)));
    value.at("dates").each_element([&](const JsonValue& date) {
        date.check_keys({"date", "available_seconds"});
        const Day day = read_day(date.at("date"));
        if (!availability.dates.emplace(day, read_available(date.at("available_seconds"))).second)
            date.refuse(iso(day) + " is there twice");
    });
    return availability;
}

Exam read_exam(const JsonValue& value) {
    value.check_keys({"title", "date", "subject"});
    const JsonValue subject = value.at("subject");
    Exam exam{value.at("title").text(), read_day(value.at("date")), subject.is_null() ? "" : subject.text()};
    // One that is over is as good as it was when it lay ahead.
    value.checked([&] { check_exam(exam, exam.day - Days{1}); });
    return exam;
}

class DocumentReader {
  public:
    explicit DocumentReader(Day today) : today_(today) {}

    Document read(const JsonValue& root) {
        check_format(root);
        root.check_keys({"format", "version", "papers", "candidates", "exams", "classes"});
        root.at("papers").each_element([&](const JsonValue& value) { take_paper(value); });
        root.at("classes").each_element([&](const JsonValue& value) { take_class(value); });
        root.at("exams").each_element([&](const JsonValue& value) { take_exam(value); });
        root.at("candidates").each_element([&](const JsonValue& value) { take_candidate(value); });

        for (auto& [id, paper] : papers_)
            document_.papers.push_back(std::move(paper));
        document_.classes.assign(classes_.begin(), classes_.end());
        for (const auto& [day, subject, title] : exams_)
            document_.exams.push_back({title, day, subject});
        std::sort(document_.candidates.begin(), document_.candidates.end(),
                  [](const auto& a, const auto& b) { return a.candidate.code < b.candidate.code; });
        return std::move(document_);
    }

  private:
    void take_paper(const JsonValue& value) {
        auto paper = read_paper(value);
        const std::string id = paper->id();
        if (!papers_.emplace(id, std::move(paper)).second)
            value.refuse("paper " + id + " is there twice");
    }

    void take_class(const JsonValue& value) {
        value.checked([&, &name = value.text()] { check_class_name(name); });
        if (!classes_.insert(value.text()).second)
            value.refuse("class " + value.text() + " is there twice");
    }

    void take_exam(const JsonValue& value) {
        Exam exam = read_exam(value);
        if (!exams_.emplace(exam.day, std::move(exam.subject), std::move(exam.title)).second)
            value.refuse("the exam is there twice");
    }

    void take_candidate(const JsonValue& value) {
        value.check_keys({"candidate", "classes", "availability", "sittings"});
        ExportedCandidate taken;
        Candidate& candidate = taken.candidate;
        const JsonValue code = value.at("candidate");
        candidate.code = code.text();
        code.checked([&] { check_candidate_code(candidate.code); });
        if (!codes_.insert(candidate.code).second)
            code.refuse("candidate " + candidate.code + " is there twice");
        taken.classes = read_classes(value.at("classes"));
        candidate.availability = read_availability(value.at("availability"));
        take_sittings(value.at("sittings"), candidate);
        document_.candidates.push_back(std::move(taken));
    }

    std::vector<std::string> read_classes(const JsonValue& value) {
        std::set<std::string> names;
        value.each_element([&](const JsonValue& name) {
            if (classes_.count(name.text()) == 0)
                name.refuse("class " + name.text() + " is not among the document's classes");
            if (!names.insert(name.text()).second)
                name.refuse("class " + name.text() + " is there twice");
        });
        return {names.begin(), names.end()};
    }

    void take_sittings(const JsonValue& value, Candidate& candidate) {
        std::map<std::pair<Day, std::string>, SittingReader> sittings;
        value.each_element([&](const JsonValue& sitting) {
            sitting.check_keys({"paper", "date", "extra_time", "marks", "retries", "days"});
            const JsonValue id = sitting.at("paper");
            const auto paper = papers_.find(id.text());
            if (paper == papers_.end())
                id.refuse("paper " + id.text() + " is not among the document's papers");
            SittingReader read(sitting, paper->second, today_);
            const Day day = read.day();
            if (!sittings.emplace(std::pair(day, id.text()), std::move(read)).second)
                sitting.refuse("candidate " + candidate.code + " has another sitting of " + id.text() +
                               " on " + iso(day));
        });
        for (auto& [key, sitting] : sittings)
            sitting.move_into(candidate);
    }

    Day today_;
    Document document_;
    std::map<std::string, std::shared_ptr<const Paper>> papers_;
    std::set<std::string> classes_;
    std::set<std::string> codes_;
    std::set<std::tuple<Day, std::string, std::string>> exams_;
};

} // namespace

Document read_document(std::istream& in, Day today) {
    const Json json = read_json(text_of(in));
    return DocumentReader(today).read(JsonValue(json));
}

void check_follows(const Paper& paper, const Question& question, const Sitting& sitting,
                   const std::vector<Reattempt>& earlier, const Reattempt& reattempt) {
    const std::string which = "turn " + std::to_string(reattempt.turn) + " of question " + question.label;
    const auto open = open_turn(paper, question, sitting, earlier);
    if (!open && earlier.empty())
        throw Error(which + ": the sitting did not miss the question");
    if (!open)
        throw Error(which + ": the question was got before");
    if (open->turn != reattempt.turn)
        throw Error(which + ": turn " + std::to_string(open->turn) + " comes next");
    if (reattempt.day < open->dropped_on)
        throw Error(which + " on " + iso(reattempt.day) + ": the question was missed on " +
                    iso(open->dropped_on) + "; a re-attempt is not before that");
}

} // namespace inkturn
