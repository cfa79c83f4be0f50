#include "inkturn/plan/sittings_ahead.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/long_ago.hpp"
#include "inkturn/plan/later_turns.hpp"
#include "inkturn/retry/latest.hpp"
#include "inkturn/retry/retry.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

constexpr Days window_length{21}; ///< from the attempt to the last day of its window
constexpr Days week{7};
constexpr std::size_t max_weeks = 200;      ///< that a plan without an exam looks ahead
constexpr Days looked_on{56};               ///< past these, for a day that has room
constexpr Seconds usual_allowance{90 * 60}; ///< where no paper is on file to go by: 75 marks
constexpr std::size_t usual_questions = 10;

/// `p2` before `p10`.
bool comes_before(const std::string& a, const std::string& b) {
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() && j < b.size()) {
        if (is_digit(a[i]) && is_digit(b[j])) {
            const auto number = [](const std::string& text, std::size_t& position) {
                while (position + 1 < text.size() && text[position] == '0' && is_digit(text[position + 1]))
                    ++position;
                const std::size_t start = position;
                while (position < text.size() && is_digit(text[position]))
                    ++position;
                return text.substr(start, position - start);
            };
            const std::string of_a = number(a, i);
            const std::string of_b = number(b, j);
            if (of_a.size() != of_b.size())
                return of_a.size() < of_b.size();
            if (of_a != of_b)
                return of_a < of_b;
        } else if (a[i] != b[j]) {
            return a[i] < b[j];
        } else {
            ++i;
            ++j;
        }
    }
    return std::tuple(a.size() - i, a) < std::tuple(b.size() - j, b);
}

/// The questions that a sitting of the whole paper answers.
std::size_t questions_counted(const Paper& paper) {
    std::size_t counted = paper.questions().size();
    for (const ChoiceOfQuestions& choice : paper.choices())
        counted -= choice.questions.size() - static_cast<std::size_t>(choice.choice.count);
    return counted;
}

/// Length and questions of a paper that is not on file: the middle ones of the whole papers that are.
struct Typical {
    Seconds allowance = usual_allowance;
    std::size_t questions = usual_questions;
};

Typical typical(const SittingsRequest& request, const std::string& subject) {
    std::vector<std::pair<Seconds, std::size_t>> sizes;
    for (const auto& paper : request.papers)
        if (paper->subject() == subject && request.drawn.count(paper->id()) == 0)
            sizes.emplace_back(allowance(*paper), questions_counted(*paper));
    if (sizes.empty())
        return {};
    std::sort(sizes.begin(), sizes.end());
    return {sizes[sizes.size() / 2].first, sizes[sizes.size() / 2].second};
}

Seconds with_extra(Seconds time, ExtraTime extra) {
    return (time * (100 + extra.percent()) + Seconds(50)) / 100;
}

/// A piece for each question that may be expected to be missed.
std::vector<Seconds> expected_retries_of(Seconds allowance, std::size_t questions, double share) {
    const Seconds sum{std::llround(share * static_cast<double>(allowance.count()))};
    return shared_out(
        sum, static_cast<std::size_t>(std::max(1.0, std::round(share * static_cast<double>(questions)))));
}

/// Days that are shared out evenly, a share a paper.
DaySpan share_of(DaySpan days, std::size_t number, std::size_t of) {
    const auto length = static_cast<std::int64_t>((days.last - days.first).count()) + 1;
    const auto at = [&](std::size_t i) {
        return days.first + Days{length * static_cast<std::int64_t>(i) / static_cast<std::int64_t>(of)};
    };
    return {at(number), std::max(at(number), at(number + 1) - Days{1})};
}

/// The half of the days that lies in their middle, a day at least.
DaySpan middle(DaySpan days) {
    const Days quarter{(days.last - days.first + Days{1}).count() / 4};
    return {days.first + quarter, days.last - quarter};
}

class Gatherer {
  public:
    Gatherer(const Candidate& candidate, const SittingsRequest& request, Day today)
        : candidate_(candidate), request_(request), today_(today), extra_(extra_time_ahead(candidate)) {}

    SittingsAhead gathered() {
        SittingsAhead ahead;
        for (auto& [subject, papers] : papers_by_subject()) {
            SubjectAhead one = subject_ahead(subject);
            if (one.examined)
                papers.clear();
            give_days(one, papers);
            one.papers = papers.size();
            count_wished(one);
            ahead.subjects.push_back(std::move(one));
            std::move(papers.begin(), papers.end(), std::back_inserter(ahead.papers));
        }
        std::stable_sort(ahead.subjects.begin(), ahead.subjects.end(),
                         [](const SubjectAhead& a, const SubjectAhead& b) {
                             return a.exam.value_or(latest_day) < b.exam.value_or(latest_day);
                         });
        std::stable_sort(
            ahead.papers.begin(), ahead.papers.end(),
            [](const PaperToSit& a, const PaperToSit& b) { return a.piece.near->last < b.piece.near->last; });
        return ahead;
    }

  private:
    /// With an empty list for a subject that has an exam ahead and no papers.
    std::map<std::string, std::vector<PaperToSit>> papers_by_subject() const {
        std::map<std::string, std::vector<PaperToSit>> by_subject;
        for (const auto& paper : papers_not_sat())
            by_subject[paper->subject()].push_back(to_sit(paper));
        for (const auto& [subject, wished] : candidate_.wishes.papers)
            have_as_many(by_subject[subject], subject, wished);
        for (const Exam& exam : candidate_.exams)
            if (exam.day > today_ && !exam.mock && (!exam.subject.empty() || by_subject.empty()))
                by_subject.try_emplace(exam.subject);
        return by_subject;
    }

    std::vector<std::shared_ptr<const Paper>> papers_not_sat() const {
        std::set<std::string> done = request_.on_desk;
        for (const SittingRecord& record : candidate_.sittings)
            done.insert(record.paper->id());
        std::vector<std::shared_ptr<const Paper>> papers;
        for (const auto& paper : request_.papers)
            if (done.count(paper->id()) == 0 && !steering(*paper).let_go && !is_of_others(*paper) &&
                !is_met(*paper))
                papers.push_back(paper);
        std::sort(papers.begin(), papers.end(), [&](const auto& a, const auto& b) {
            const bool a_in_part = met_of(*a) > 0;
            const bool b_in_part = met_of(*b) > 0;
            if (a_in_part != b_in_part)
                return b_in_part;
            return is_drawn(*a) != is_drawn(*b) ? is_drawn(*a) : comes_before(a->id(), b->id());
        });
        return papers;
    }

    bool is_drawn(const Paper& paper) const { return request_.drawn.count(paper.id()) > 0; }

    std::size_t met_of(const Paper& paper) const {
        const auto found = request_.met.find(paper.id());
        return found == request_.met.end() ? 0 : found->second;
    }

    /// Nothing of it is unseen, and no day was asked for.
    bool is_met(const Paper& paper) const {
        return met_of(paper) >= paper.questions().size() && !steering(paper).standing(today_);
    }

    Steering steering(const Paper& paper) const {
        return steering_of(candidate_, WorkPurpose::sit, paper.subject(), paper.id());
    }

    bool is_of_others(const Paper& paper) const {
        return request_.of_others.count(paper.id()) > 0 && !steering(paper).standing(today_);
    }

    PaperToSit to_sit(const std::shared_ptr<const Paper>& paper) const {
        PaperToSit to_sit;
        to_sit.subject = paper->subject();
        to_sit.paper = paper;
        to_sit.is_drawn = is_drawn(*paper);
        to_sit.met = met_of(*paper);
        to_sit.piece.wish = steering(*paper).standing(today_);
        fill_in(to_sit, allowance(*paper, extra_), questions_counted(*paper));
        return to_sit;
    }

    int sat_since(const std::string& subject, Day since) const {
        return static_cast<int>(std::count_if(
            candidate_.sittings.begin(), candidate_.sittings.end(), [&](const SittingRecord& record) {
                return record.paper->subject() == subject && record.sitting.day >= since;
            }));
    }

    void count_wished(SubjectAhead& ahead) const {
        const auto found = candidate_.wishes.papers.find(ahead.subject);
        if (found == candidate_.wishes.papers.end())
            return;
        ahead.wished = found->second.count;
        ahead.sat = std::min(sat_since(ahead.subject, found->second.since), ahead.wished);
    }

    /// Papers that are not on file have their number among all that are wished, so that it stays theirs as
    /// the ones before them are sat.
    void have_as_many(std::vector<PaperToSit>& papers, const std::string& subject,
                      const PaperWish& wished) const {
        const Typical size = typical(request_, subject);
        const int sat = sat_since(subject, wished.since);
        const auto left = static_cast<std::size_t>(std::max(wished.count - sat, 0));
        leave_as_many(papers, left);
        while (papers.size() < left) {
            PaperToSit to_sit;
            to_sit.subject = subject;
            to_sit.number = sat + static_cast<int>(papers.size()) + 1;
            fill_in(to_sit, with_extra(size.allowance, extra_), size.questions);
            papers.push_back(std::move(to_sit));
        }
    }

    /// The first ones and those that were asked for.
    static void leave_as_many(std::vector<PaperToSit>& papers, std::size_t count) {
        auto others = static_cast<std::ptrdiff_t>(count);
        for (const PaperToSit& paper : papers)
            others -= paper.piece.wish ? 1 : 0;
        papers.erase(
            std::remove_if(papers.begin(), papers.end(),
                           [&](const PaperToSit& paper) { return !paper.piece.wish && others-- <= 0; }),
            papers.end());
    }

    void fill_in(PaperToSit& to_sit, Seconds time, std::size_t questions) const {
        to_sit.allowance = time;
        to_sit.piece.work = time_with_marking(time, candidate_.wishes);
        to_sit.piece.paper = true;
        to_sit.piece.expected.retries = expected_retries_of(time, questions, request_.share.share);
    }

    SubjectAhead subject_ahead(const std::string& subject) const {
        SubjectAhead one;
        one.subject = subject;
        one.exam = exam_ahead(candidate_.exams, subject, today_);
        if (one.exam && is_far_off(*one.exam, today_))
            one.far_off = std::exchange(one.exam, std::nullopt);
        one.examined = is_examined_by(candidate_.exams, subject, today_);
        if (one.exam)
            one.last_useful = last_useful_sitting(*one.exam);
        return one;
    }

    /// Where the weeks of a subject without an exam begin: a week after the last whole paper that was sat.
    Day weeks_begin(const std::string& subject) const {
        Day first = today_;
        for (const SittingRecord& record : candidate_.sittings)
            if (record.paper->subject() == subject && request_.drawn.count(record.paper->id()) == 0)
                first = std::max(first, record.sitting.day + week);
        return std::min(first, latest_day);
    }

    /// The days of all papers of a subject, shared out.
    void give_days(const SubjectAhead& subject, std::vector<PaperToSit>& papers) const {
        if (papers.empty())
            return;
        if (!subject.exam)
            papers.resize(std::min(papers.size(), max_weeks));
        const Days weeks = week * static_cast<std::int64_t>(papers.size());
        const Day first = subject.exam ? today_ : weeks_begin(subject.subject);
        const DaySpan useful{first, subject.exam ? std::max(*subject.last_useful, today_ - Days{1})
                                                 : std::min(first + weeks - Days{1}, latest_day)};
        const DaySpan late{std::max(today_, useful.last + Days{1}),
                           subject.exam ? *subject.exam - Days{1}
                                        : std::min(useful.last + looked_on, latest_day)};
        for (std::size_t i = 0; i < papers.size(); ++i) {
            PaperToSit& paper = papers[i];
            paper.last_useful = subject.last_useful;
            paper.piece.expected.exam = subject.exam;
            if (!subject.exam)
                paper.piece.spans = {{today_, late.last}};
            else if (useful.last >= today_)
                paper.piece.spans = {useful};
            if (subject.exam && late.first <= late.last)
                paper.piece.spans.push_back(late);
            paper.piece.near = middle(share_of(useful.last >= today_ ? useful : late, i, papers.size()));
            for (const Exam& exam : candidate_.exams)
                paper.piece.never_on.push_back(exam.day);
            paper.piece.kept_day = planned_day(candidate_.planned, WorkPurpose::sit, paper.subject,
                                               paper.paper ? paper.paper->id() : std::string(), paper.number);
        }
    }

    const Candidate& candidate_;
    const SittingsRequest& request_;
    Day today_;
    ExtraTime extra_;
};

Seconds time_counted(const Question& question, const Sitting& sitting,
                     const std::vector<Seconds>& allowances) {
    Seconds sum{0};
    for (const std::size_t part : question.parts)
        if (sitting.parts[part].counts())
            sum += allowances[part];
    return sum;
}

} // namespace

ExtraTime extra_time_ahead(const Candidate& candidate) {
    if (candidate.extra_time)
        return *candidate.extra_time;
    return candidate.sittings.empty() ? ExtraTime() : candidate.sittings.back().sitting.extra_time;
}

std::string name_of(const PaperToSit& paper) {
    if (paper.paper)
        return paper.paper->id();
    return (paper.subject.empty() ? "" : paper.subject + " ") + "paper " + std::to_string(paper.number);
}

std::optional<double> missed_share(const std::vector<Candidate>& candidates, const RetryRule& rule) {
    Seconds all{0};
    Seconds again{0};
    std::for_each(candidates.begin(), candidates.end(), check_whole);
    for (const Candidate& candidate : candidates)
        for (const SittingRecord& record : candidate.sittings) {
            const std::vector<Seconds> allowances = part_allowances(*record.paper);
            for (const Question& question : record.paper->questions()) {
                if (!is_latest(candidate, record, question))
                    continue;
                const Seconds time = time_counted(question, record.sitting, allowances);
                all += time;
                if (rule.makes_retry(missed_in(*record.paper, question, record.sitting)))
                    again += time;
            }
        }
    if (all == Seconds(0))
        return std::nullopt;
    return static_cast<double>(again.count()) / static_cast<double>(all.count());
}

Day last_useful_sitting(Day exam) {
    return exam - Days{1} - window_length;
}

SittingsAhead sittings_ahead(const Candidate& candidate, const SittingsRequest& request, Day today) {
    return Gatherer(candidate, request, today).gathered();
}

} // namespace inkturn
