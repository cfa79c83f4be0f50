#include "printed/sums.hpp"

#include "inkturn/paper/paper.hpp"

#include <algorithm>
#include <string>

namespace inkturn::printed {
namespace {

/// A label with the marks after it and before the next one.
struct PlaceOfMarks {
    const LabelOnLine* label;
    std::vector<const PrintedMarks*> marks; ///< in the form of parts
    std::vector<const PrintedMarks*> other; ///< in another form
};

template <typename Read>
std::pair<typename std::vector<Read>::const_iterator, typename std::vector<Read>::const_iterator>
in_lines(const std::vector<Read>& all, const QuestionLabels& question) {
    const auto before = [](const Read& read, std::size_t line) { return read.line < line; };
    return {std::lower_bound(all.begin(), all.end(), question.line, before),
            std::lower_bound(all.begin(), all.end(), question.end, before)};
}

class Question {
  public:
    Question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& labels,
             const MarksChosen& marks)
        : paper_(paper), layout_(layout), labels_(labels), marks_(marks) {
        found_.label = labels.label;
        place_marks();
        drop_other_forms();
        drop_numbers_of_formulae();
        read_totals();
    }

    void append() {
        take_lone_total();
        for (const PlaceOfMarks& place : places_)
            append_part(place);
        take_total_as_marks();
        check_total();
        paper_.questions.push_back(std::move(found_));
    }

  private:
    void place_marks() {
        for (const LabelOnLine& label : labels_.labels)
            places_.push_back({&label, {}, {}});
        std::size_t at = 0;
        const auto [first, end] = in_lines(marks_.marks, labels_);
        for (auto read = first; read != end; ++read) {
            while (at + 1 < places_.size() && places_[at + 1].label->line <= read->line)
                ++at;
            (read->form == marks_.form ? places_[at].marks : places_[at].other).push_back(&*read);
        }
    }

    /// Marks in another form than the parts' are a total at the question's end, or the only marks of a part;
    /// elsewhere they are words of the text.
    void drop_other_forms() {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            PlaceOfMarks& place = places_[i];
            if (place.other.empty())
                continue;
            const bool is_last = i + 1 == places_.size();
            const PrintedMarks& last = *place.other.back();
            const bool is_at_number = i == 0 && last.line == place.label->line;
            const bool is_after_marks =
                is_last && !place.marks.empty() && last.line >= place.marks.back()->line;
            if (place.marks.empty() && !place.label->has_sub_parts)
                place.marks.push_back(&last);
            if (is_at_number || is_after_marks)
                take_as_total(last);
            place.other.clear();
        }
    }

    /// The number of a formula comes before sub-parts, or before the marks of a part.
    void drop_numbers_of_formulae() {
        for (PlaceOfMarks& place : places_) {
            const auto kept =
                std::stable_partition(place.marks.begin(), place.marks.end(),
                                      [](const PrintedMarks* marks) { return !marks->may_number_a_formula; });
            if (kept != place.marks.begin() || place.label->has_sub_parts)
                place.marks.erase(kept, place.marks.end());
        }
    }

    void read_totals() {
        const auto [first, end] = in_lines(marks_.totals, labels_);
        for (auto total = first; total != end; ++total) {
            if (total->of != PrintedTotal::Of::question)
                continue;
            if (total->question && *total->question != labels_.number)
                doubt(total->line, "a total for question " + std::to_string(*total->question) +
                                       " is printed in question " + labels_.label);
            if (found_.total && found_.total->count() != total->count)
                doubt(total->line, "question " + labels_.label + " has two totals, " +
                                       std::to_string(found_.total->count()) + " and " +
                                       marks_text(total->count));
            found_.total = Marks(total->count);
            total_line_ = total->line;
        }
    }

    /// Of the marks at each place: the first, or all of them.
    int sum_of_marks() const {
        int sum = 0;
        for (const PlaceOfMarks& place : places_)
            for (const PrintedMarks* const marks : place.marks)
                sum += marks_.add_up || marks == place.marks.front() ? marks->count : 0;
        return sum;
    }

    /// `[12]` after parts that add up to 12, or at the question's number before them.
    void take_lone_total() {
        std::vector<const PrintedMarks*>& last = places_.back().marks;
        std::vector<const PrintedMarks*>& head = places_.front().marks;
        if (found_.total)
            return;
        if (last.size() == 2 || (marks_.add_up && last.size() > 2)) {
            const PrintedMarks* const end = last.back();
            last.pop_back();
            if (end->count == sum_of_marks())
                return take_as_total(*end);
            last.push_back(end);
        }
        if (places_.size() > 1 && head.size() == 1 && 2 * head.front()->count == sum_of_marks()) {
            take_as_total(*head.front());
            head.clear();
        }
    }

    void take_as_total(const PrintedMarks& marks) {
        found_.total = Marks(marks.count);
        total_line_ = marks.line;
    }

    void append_part(const PlaceOfMarks& place) {
        if (place.label->has_sub_parts && place.marks.empty())
            return;
        const std::string& label = place.label->label;
        PrintedPart part{label, std::nullopt, layout_.page_of(place.label->line)};
        if (marks_.each)
            part.marks = Marks(*marks_.each);
        else if (!place.marks.empty())
            part.marks = marks_of(label, place.marks);
        if (place.label->has_sub_parts)
            doubt(place.marks.back()->line, text_of(*place.marks.back()) + " is printed at " + label +
                                                " before its sub-parts: taken as marks of its own");
        for (std::size_t i = 0; i + 1 < place.marks.size(); ++i)
            twice_.push_back({layout_.page_of(place.marks[i]->line),
                              "part " + label + " has marks twice, " + text_of(*place.marks[i]) + " and " +
                                  text_of(*place.marks[i + 1]) +
                                  (marks_.add_up ? ": they are added up" : ": the last are used"),
                              labels_.label});
        found_.parts.push_back(paper_.parts.size());
        paper_.parts.push_back(std::move(part));
    }

    std::optional<Marks> marks_of(const std::string& label, const std::vector<const PrintedMarks*>& all) {
        PrintedMarks marks = *all.back();
        for (std::size_t i = 0; marks_.add_up && i + 1 < all.size(); ++i)
            marks.count += all[i]->count;
        if (marks.count >= 1 && marks.count <= max_part_marks.count())
            return Marks(marks.count);
        doubt(marks.line, text_of(marks) + " is printed at part " + label + ": a part has 1 to " +
                              marks_text(max_part_marks.count()));
        return std::nullopt;
    }

    /// A question of one part may have nothing but its total. Then parts without marks are doubts.
    void take_total_as_marks() {
        for (const std::size_t position : found_.parts) {
            PrintedPart& part = paper_.parts[position];
            const bool is_only = places_.size() == 1 && found_.total && found_.total->count() > 0 &&
                                 *found_.total <= max_part_marks;
            if (!part.marks && is_only && places_.front().marks.empty()) {
                part.marks = found_.total;
                // options to choose from, for one mark in all, are more than it has
                if (labels_.letters_unread > 0 && labels_.letters_unread <= part.marks->count())
                    doubt(labels_.line, "letters a, b are printed in question " + labels_.label +
                                            " without marks: its total is taken as one part");
            }
            if (!part.marks)
                paper_.doubts.push_back({part.page, "part " + part.label + " has no marks", labels_.label});
        }
    }

    /// Marks that are added up are beyond doubt where the total says so and no label may be between them.
    void check_total() {
        const bool is_met = found_.total == inkturn::marks_of(paper_, found_);
        if (!marks_.add_up || !is_met || labels_.has_unread_after_marks)
            paper_.doubts.insert(paper_.doubts.end(), twice_.begin(), twice_.end());
        doubt_total(paper_.doubts, paper_, found_, layout_.page_of(total_line_));
    }

    void doubt(std::size_t line, std::string message) {
        paper_.doubts.push_back({layout_.page_of(line), std::move(message), labels_.label});
    }

    PrintedPaper& paper_;
    const Layout& layout_;
    const QuestionLabels& labels_;
    const MarksChosen& marks_;
    std::vector<PlaceOfMarks> places_;
    PrintedQuestion found_;
    std::vector<Doubt> twice_; ///< marks of a part
    std::size_t total_line_ = 0;
};

} // namespace

void append_question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question,
                     const MarksChosen& marks) {
    Question(paper, layout, question, marks).append();
}

void doubt_sum(std::vector<Doubt>& doubts, std::optional<std::size_t> page, const std::string& what, int sum,
               const std::string& stated_by, int stated, const std::string& question) {
    if (sum != stated)
        doubts.push_back({page,
                          what + " add up to " + marks_text(sum) + ", but " + stated_by + " says " +
                              std::to_string(stated),
                          question});
}

void doubt_total(std::vector<Doubt>& doubts, const PrintedPaper& paper, const PrintedQuestion& question,
                 std::optional<std::size_t> page) {
    if (question.total)
        doubt_sum(doubts, page, "question " + question.label + ": its parts",
                  inkturn::marks_of(paper, question).count(), "its total", question.total->count(),
                  question.label);
}

std::size_t last_line_with_marks(const QuestionLabels& question, const MarksChosen& marks) {
    std::size_t last = question.line;
    if (const auto [first, end] = in_lines(marks.marks, question); first != end)
        last = std::max(last, std::prev(end)->line);
    const auto [first, end] = in_lines(marks.totals, question);
    for (auto total = first; total != end; ++total)
        if (total->of == PrintedTotal::Of::question)
            last = std::max(last, total->line);
    return last;
}

} // namespace inkturn::printed
