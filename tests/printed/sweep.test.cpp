#include "inkturn/paper/paper.hpp"
#include "inkturn/printed/paper.hpp"

#include "pages.hpp"

#include "catch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <string>
#include <vector>

using namespace inkturn;

namespace {

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t count) {
    return static_cast<std::size_t>(random() % count);
}

template <typename Choices>
auto one_of(Random& random, const Choices& choices) {
    return choices[below(random, choices.size())];
}

std::string with(std::string form, const std::string& value) {
    const std::size_t at = form.find('#');
    return at == std::string::npos ? form : form.replace(at, 1, value);
}

/// How one paper is laid out.
struct Style {
    std::string number; ///< `#` is the number
    std::string marks;
    std::string total;         ///< empty: none
    bool unaided_line = false; ///< marks below the text
    bool answer_lines = false;
    bool two_columns = false;
    bool has_cover = false;
    bool has_head = false;
};

Style any_style(Random& random) {
    const std::array<std::string, 6> numbers{"#", "#.", "Q#", "0#", "#)", "Question #"};
    const std::array<std::string, 5> marks{"(#)", "[#]", "(# marks)", "[# marks]", "# marks"};
    const std::array<std::string, 5> totals{"", "(Total for Question % is # marks)", "[Total #]",
                                            "(Total # marks)", "Total for Question %: # marks"};
    Style style;
    style.number = one_of(random, numbers);
    style.marks = one_of(random, marks);
    style.total = one_of(random, totals);
    style.two_columns = below(random, 4) == 0;
    style.unaided_line = below(random, 2) == 0;
    style.answer_lines = !style.two_columns && below(random, 2) == 0;
    style.has_cover = below(random, 2) == 0;
    style.has_head = below(random, 2) == 0;
    return style;
}

/// Sets a paper, and keeps what a reader has to find in it.
class Setter {
  public:
    Setter(Random& random, Style style) : random_(random), style_(std::move(style)) {
        sheets_.type = style_.two_columns ? 8 : 11;
        new_page();
    }

    void cover(int total) {
        if (!style_.has_cover)
            return;
        line(0, "Invented paper", "");
        line(0, "Time allowed: " + std::to_string(total) + " minutes", "");
        line(0, "The total mark for this paper is " + std::to_string(total) + ".", "");
        const std::array<std::string, 3> rules{"Answer all questions.", "Show all working.", "Write in ink."};
        for (std::size_t i = 0; i < rules.size(); ++i) {
            sheets_.set(left(), top_, std::to_string(i + 1));
            line(30, rules[i], "");
        }
        new_page();
    }

    void question(int number, const std::vector<std::pair<std::string, int>>& parts) {
        if (top_ > bottom - 6 * pitch())
            next_column();
        question_ = std::to_string(number);
        sheets_.set(left(), top_, with(style_.number, question_));
        int sum = 0;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            part(parts[i].first, parts[i].second, i == 0);
            sum += parts[i].second;
        }
        totals_[question_] = sum;
        if (!style_.total.empty()) {
            std::string total = with(style_.total, std::to_string(sum + (number == wrong ? 1 : 0)));
            if (const std::size_t at = total.find('%'); at != std::string::npos)
                total.replace(at, 1, question_);
            line(0, "", total);
        }
        top_ += pitch();
    }

    bool is_in_columns() const { return style_.two_columns; }
    Sheets& sheets() { return sheets_; }
    const std::vector<std::pair<std::string, int>>& truth() const { return truth_; }
    int wrong = 0; ///< the number of a question whose total is printed wrong

    struct Placed {
        std::string question;
        std::size_t page;
        PrintedBox box;
    };
    const std::vector<Placed>& placed() const { return placed_; }

  private:
    static constexpr double bottom = 770;

    double pitch() const { return sheets_.type * 1.4; }
    double left() const { return style_.two_columns && is_right_ ? 310 : 45; }
    double right() const { return style_.two_columns && !is_right_ ? 285 : 550; }

    void new_page() {
        sheets_.turn();
        is_right_ = false;
        top_ = 60;
        if (style_.has_head) {
            const double type = sheets_.type;
            sheets_.type = 8;
            sheets_.set(45, 25, "Invented paper P1");
            sheets_.set(290, 800, std::to_string(sheets_.pages().size()));
            sheets_.set_to(550, 800, "Turn over");
            sheets_.type = type;
        }
    }

    void next_column() {
        if (style_.two_columns && !is_right_) {
            is_right_ = true;
            top_ = 60;
        } else {
            new_page();
        }
    }

    /// The characters that find room on a line.
    std::size_t room_after(double indent) const {
        return static_cast<std::size_t>(2 * (right() - left() - indent) / sheets_.type);
    }

    /// No line is like another, or lines at the head of pages would be running ones.
    std::string unlike(const std::string& text) {
        std::string word;
        for (std::size_t count = ++lines_; count > 0; count /= 26)
            word += static_cast<char>('a' + count % 26);
        return text + " " + word;
    }

    void line(double indent, const std::string& text, const std::string& at_right) {
        if (top_ > bottom)
            next_column();
        const std::size_t before = sheets_.pages().back().words.size();
        sheets_.set(left() + indent, top_, text.substr(0, room_after(indent + (at_right.empty() ? 0 : 70))));
        sheets_.set_to(right(), top_, at_right);
        for (std::size_t i = before; i < sheets_.pages().back().words.size(); ++i)
            if (!question_.empty())
                placed_.push_back(
                    {question_, sheets_.pages().size() - 1, sheets_.pages().back().words[i].box});
        top_ += pitch();
    }

    /// `bii` is set as `(b) (ii)` where its letter is new, else as `(ii)`.
    void part(const std::string& label, int marks, bool is_first) {
        double indent = style_.number.size() > 4 ? 80 : 30; // wider than the number
        if (!label.empty()) {
            const bool is_letter = label.find_first_of("abcdefgh") == 0;
            const std::string letter = is_letter ? label.substr(0, 1) : "";
            const std::string roman = is_letter ? label.substr(1) : label;
            if (!is_first && top_ > bottom - 3 * pitch())
                next_column();
            if (!letter.empty() && (is_first || letter != letter_))
                sheets_.set(left() + indent, top_, "(" + letter + ")");
            indent += letter.empty() ? 0 : 22;
            if (!roman.empty())
                sheets_.set(left() + indent, top_, "(" + roman + ")");
            indent += roman.empty() ? 0 : 26;
            letter_ = letter;
        }
        const std::string stated = with(style_.marks, std::to_string(marks));
        const std::array<std::string, 4> texts{
            "The boats pass the wall of the old harbour", "A wheel turns with f(3) by it",
            "Two lamps hang over the narrow bridge", "The keeper counts 12 sacks of corn"};
        const std::string more_text = style_.two_columns ? " and over the bridge" : "";
        line(indent, unlike(one_of(random_, texts)) + more_text, "");
        for (std::size_t more = below(random_, 3); more > 0; --more)
            line(indent,
                 unlike(below(random_, 3) == 0 ? "(a) and the other wheel by then, so"
                                               : one_of(random_, texts)),
                 "");
        line(indent, unlike("Find how many are left"), style_.unaided_line ? "" : stated);
        if (style_.unaided_line)
            line(indent, "", stated);
        for (std::size_t more = style_.answer_lines ? 1 + below(random_, 3) : 0; more > 0; --more) {
            const std::string question = std::exchange(question_, "");
            line(0, std::string(80, '.'), "");
            question_ = question;
        }
        truth_.emplace_back(question_ + label, marks);
    }

    Random& random_;
    Style style_;
    Sheets sheets_;
    double top_ = 60;
    bool is_right_ = false;
    std::string question_;
    std::string letter_;
    std::size_t lines_ = 0;
    std::map<std::string, int> totals_;
    std::vector<std::pair<std::string, int>> truth_;
    std::vector<Placed> placed_;
};

std::vector<std::pair<std::string, int>> any_parts(Random& random) {
    const std::array<std::vector<std::string>, 6> shapes{{{""},
                                                          {"a", "b"},
                                                          {"a", "b", "c", "d"},
                                                          {"i", "ii", "iii"},
                                                          {"ai", "aii", "b"},
                                                          {"a", "bi", "bii", "biii", "c"}}};
    std::vector<std::pair<std::string, int>> parts;
    for (const std::string& label : one_of(random, shapes))
        parts.emplace_back(label, 2 + static_cast<int>(below(random, 8)));
    return parts;
}

void set_paper(Random& random, Setter& setter, int wrong) {
    std::vector<std::vector<std::pair<std::string, int>>> questions;
    int total = 0;
    const std::size_t count = setter.is_in_columns() ? 16 : 4 + below(random, 9);
    for (std::size_t i = 0; i < count; ++i) {
        questions.push_back(any_parts(random));
        for (const auto& part : questions.back())
            total += part.second;
    }
    setter.wrong = wrong;
    setter.cover(total);
    for (std::size_t i = 0; i < count; ++i)
        setter.question(static_cast<int>(i) + 1, questions[i]);
    setter.sheets().shuffle(random);
}

std::string text_of(const std::vector<std::pair<std::string, int>>& parts) {
    std::string text;
    for (const auto& [label, marks] : parts)
        text += label + " " + std::to_string(marks) + ", ";
    return text;
}

std::string text_of(const PrintedPaper& paper) {
    std::string text;
    for (const PrintedPart& part : paper.parts)
        text += part.label + " " + (part.marks ? std::to_string(part.marks->count()) : "none") + ", ";
    return text;
}

bool holds(const PageStrip& strip, const Setter::Placed& word) {
    return strip.page == word.page && strip.top <= word.box.top && word.box.bottom <= strip.bottom &&
           strip.left <= word.box.left && word.box.right <= strip.right;
}

/// Words that stand in no strip of their own question, or in one of another.
std::size_t words_astray(const PrintedPaper& paper, const Setter& setter) {
    std::size_t astray = 0;
    for (const Setter::Placed& word : setter.placed())
        for (const PrintedQuestion& question : paper.questions) {
            const bool is_in = std::any_of(question.strips.begin(), question.strips.end(),
                                           [&](const PageStrip& strip) { return holds(strip, word); });
            astray += is_in == (question.label == word.question) ? 0U : 1U;
        }
    return astray;
}

std::vector<PrintedPage> noise(Random& random, std::size_t words) {
    const std::array<double, 8> edges{0,    -1e300, 1e300, std::numeric_limits<double>::infinity(),
                                      1e-9, 595,    842,   std::numeric_limits<double>::quiet_NaN()};
    const std::array<std::string, 12> texts{"1",   "2",    "3",     "(a)",   "(i)",     "(ii)",
                                            "(3)", "[12]", "Total", "marks", "Section", "\xFF\xFE"};
    std::vector<PrintedPage> pages;
    const auto edge = [&] {
        return below(random, 9) == 0 ? one_of(random, edges) : static_cast<double>(below(random, 8420)) / 10;
    };
    for (std::size_t page = 0; page < 3; ++page) {
        const double width = below(random, 5) == 0 ? edge() : 595;
        const double height = below(random, 5) == 0 ? edge() : 842;
        pages.push_back({Points(width), Points(height), {}});
        for (std::size_t i = 0; i < words; ++i) {
            const double left = edge();
            const double top = edge();
            const bool is_odd = below(random, 6) == 0;
            pages.back().words.push_back({one_of(random, texts), box(left, top, is_odd ? edge() : left + 20,
                                                                     is_odd ? edge() : top + 11)});
        }
    }
    return pages;
}

} // namespace

TEST_CASE("parts, marks and totals of plain papers are all read, and words stay with their questions",
          "[long]") {
    for (unsigned seed = 0; seed < 600; ++seed) {
        Random random(seed);
        Setter setter(random, any_style(random));
        set_paper(random, setter, 0);
        const PrintedPaper paper = recognise_paper(setter.sheets().pages());
        CAPTURE(seed);
        REQUIRE(text_of(paper) == text_of(setter.truth()));
        REQUIRE(paper.doubts.empty());
        REQUIRE(words_astray(paper, setter) == 0);
    }
}

TEST_CASE("a question's total that is printed wrong is always doubted") {
    for (unsigned seed = 1000; seed < 1200; ++seed) {
        Random random(seed);
        Style style = any_style(random);
        style.total = "[Total #]";
        Setter setter(random, style);
        set_paper(random, setter, 1 + static_cast<int>(below(random, 4)));
        const PrintedPaper paper = recognise_paper(setter.sheets().pages());
        CAPTURE(seed);
        REQUIRE(text_of(paper) == text_of(setter.truth()));
        REQUIRE(paper.doubts.size() == 1);
        REQUIRE(paper.doubts.front().message.find("its total says") != std::string::npos);
    }
}

TEST_CASE("whatever is on the pages, what is found keeps its promises") {
    for (unsigned seed = 2000; seed < 2200; ++seed) {
        Random random(seed);
        const std::vector<PrintedPage> pages = noise(random, 1 + below(random, 120));
        const PrintedPaper paper = recognise_paper(pages);
        CAPTURE(seed);
        std::vector<std::size_t> in_questions;
        for (const PrintedQuestion& question : paper.questions) {
            in_questions.insert(in_questions.end(), question.parts.begin(), question.parts.end());
            for (const PageStrip& strip : question.strips) {
                REQUIRE(strip.page < pages.size());
                REQUIRE(strip.top < strip.bottom);
                REQUIRE(strip.top >= Points(0));
                REQUIRE(std::isfinite(strip.bottom.value()));
            }
        }
        REQUIRE(in_questions.size() == paper.parts.size());
        REQUIRE(std::is_sorted(in_questions.begin(), in_questions.end()));
        for (const PrintedPart& part : paper.parts) {
            REQUIRE(part.page < pages.size());
            REQUIRE(part.marks.value_or(Marks(1)) >= Marks(1));
            REQUIRE(part.marks.value_or(Marks(1)) <= max_part_marks);
        }
        if (paper.parts.empty())
            REQUIRE_FALSE(paper.doubts.empty());
        recognise_scheme(pages, paper);
    }
}

TEST_CASE("a hundred thousand words on a page are read in moments") {
    for (const std::string word : {"1", "(i)", "(a)", "(3)", "M1", "[Total", "Section", "B1", "1.1"}) {
        for (const bool is_stacked : {false, true}) {
            PrintedPage page{Points(595), Points(842), {}};
            for (int i = 0; i < 100000; ++i) {
                const double at = i * (is_stacked ? 0.0084 : 0);
                page.words.push_back(
                    {word, box(50 + (is_stacked ? 0 : i * 0.005), at, 60 + i * 0.005, at + 9)});
            }
            const PrintedPaper paper = recognise_paper({page});
            CHECK(paper.doubts.size() <= 201);
            recognise_scheme({page}, paper);
        }
    }
}

TEST_CASE("a word of a million characters is no more than another") {
    Random random(5);
    Style style;
    style.number = "#";
    style.marks = "(#)";
    Setter setter(random, style);
    set_paper(random, setter, 0);
    std::vector<PrintedPage> pages = setter.sheets().pages();
    pages.front().words.push_back({std::string(1000000, '7'), box(200, 300, 300, 311)});
    CHECK(text_of(recognise_paper(pages)) == text_of(setter.truth()));
}
