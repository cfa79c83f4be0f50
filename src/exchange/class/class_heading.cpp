#include "exchange/class/class_heading.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/paper/paper.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

constexpr int max_total = 250'000;

template <typename Words>
bool is_among(const Words& words, std::string_view text) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

/// Headings of codes: one of each, such as `Cand No`.
constexpr std::array<std::string_view, 5> whose_words{"candidate", "cand", "student", "pupil", "learner"};
constexpr std::array<std::string_view, 6> of_code_words{"code", "number", "no", "num", "id", "ref"};
constexpr std::array<std::string_view, 11> candidate_words{
    "candidate", "candidates", "cand",           "code",        "student",           "pupil",
    "learner",   "exam no",    "exam candidate", "exam number", "examination number"};
constexpr std::array<std::string_view, 25> person_words{"name",
                                                        "student name",
                                                        "pupil name",
                                                        "candidate name",
                                                        "full name",
                                                        "surname",
                                                        "forename",
                                                        "first name",
                                                        "last name",
                                                        "id",
                                                        "number",
                                                        "no",
                                                        "admission no",
                                                        "upn",
                                                        "known as",
                                                        "admission number",
                                                        "initials",
                                                        "learner name",
                                                        "family name",
                                                        "given name",
                                                        "id number",
                                                        "roll no",
                                                        "roll number",
                                                        "uci",
                                                        "unique candidate identifier"};
/// Further ones of codes rather than names.
constexpr std::array<std::string_view, 14> code_words{
    "code",         "exam candidate",   "exam no", "exam number", "examination number",
    "id",           "id number",        "upn",     "uci",         "unique candidate identifier",
    "admission no", "admission number", "roll no", "roll number"};
/// Of people, but not enough to tell them apart.
constexpr std::array<std::string_view, 9> part_of_name{"surname",    "forename", "first name",
                                                       "last name",  "initials", "family name",
                                                       "given name", "known as", "no"};
constexpr std::array<std::string_view, 11> total_words{
    "total",       "totals",      "total mark", "total marks", "total score", "overall",
    "grand total", "paper total", "sum",        "raw mark",    "overall mark"};
constexpr std::array<std::string_view, 32> remark_words{
    "%",        "percent", "percentage", "pct",    "grade",   "grades",     "level",      "rank",
    "position", "comment", "comments",   "remark", "remarks", "note",       "notes",      "feedback",
    "form",     "class",   "set",        "group",  "teacher", "tutor",      "year",       "gender",
    "sex",      "target",  "predicted",  "email",  "ums",     "percentile", "attendance", "house"};
constexpr std::array<std::string_view, 5> extra_time_words{"extra time", "extra time %", "extra time (%)",
                                                           "extra time percent", "extra time in percent"};
constexpr std::array<std::string_view, 3> subtotal_words{"total", "subtotal", "sum"};
constexpr std::array<std::string_view, 5> marks_words{"marks", "mark", "score", "scores", "out"};
constexpr std::array<std::string_view, 9> max_words{"max",       "maximum",         "max mark",
                                                    "max marks", "maximum mark",    "maximum marks",
                                                    "out of",    "marks available", "available"};
/// Of rows that are no candidate's, each the whole text.
constexpr std::array<std::string_view, 30> no_candidate_words{
    "boys",     "girls",      "cohort", "pass",  "passed",  "fail",     "moderated", "avg",
    "mode",     "highest",    "lowest", "min",   "minimum", "total",    "totals",    "grand total",
    "sum",      "notes",      "note",   "range", "count",   "sd",       "std dev",   "st dev",
    "facility", "percentage", "mark",   "marks", "absent",  "absentees"};
/// The same alone and among other words, such as `National average`, `No. of entries`.
constexpr std::array<std::string_view, 9> no_candidate_among{
    "%", "mean", "average", "averages", "median", "deviation", "target", "predicted", "entries"};

/// What is counted below a list, as in `2 absent`.
constexpr std::array<std::string_view, 6> counted_words{"absent", "absentees", "candidates",
                                                        "pupils", "students",  "present"};

/// In lower case, each run of blanks and of signs that only part words as one space.
std::string plain_words(std::string_view text) {
    std::string words;
    bool parted = false;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t blank = blank_length(text.substr(i));
        if (blank > 0 || text[i] == '.' || text[i] == ':' || text[i] == '_' || text[i] == '\n' ||
            text[i] == '\r' || text[i] == '#') {
            parted = true;
            i += blank > 0 ? blank : 1;
            continue;
        }
        if (parted && !words.empty())
            words += ' ';
        parted = false;
        words += lower(text[i++]);
    }
    return words;
}

std::vector<std::string_view> split_words(std::string_view words) {
    std::vector<std::string_view> list;
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        list.push_back(words.substr(0, end));
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return list;
}

bool drop_prefix(std::string& text, std::string_view prefix) {
    if (text.compare(0, prefix.size(), prefix) != 0)
        return false;
    text.erase(0, prefix.size());
    return true;
}

bool drop_suffix(std::string& text, std::string_view suffix) {
    if (text.size() < suffix.size() || text.compare(text.size() - suffix.size(), suffix.size(), suffix) != 0)
        return false;
    text.erase(text.size() - suffix.size());
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    return true;
}

/// Takes `/4`, `(4)`, `[4 marks]`, `(out of 4)` off the end.
std::optional<int> take_max(std::string& words) {
    std::string rest = words;
    const bool round = drop_suffix(rest, ")");
    const bool square = !round && drop_suffix(rest, "]");
    drop_suffix(rest, "marks") || drop_suffix(rest, "mark");
    std::size_t digits = rest.size();
    while (digits > 0 && is_digit(rest[digits - 1]))
        --digits;
    const auto max = read_whole_number(std::string_view(rest).substr(digits), max_total);
    rest.erase(digits);
    while (!rest.empty() && rest.back() == ' ')
        rest.pop_back();
    const bool stated = drop_suffix(rest, "out of") || drop_suffix(rest, "/") || drop_suffix(rest, "max");
    const bool opened = (round && drop_suffix(rest, "(")) || (square && drop_suffix(rest, "["));
    if (!max || *max == 0 || rest.empty() || (round || square ? !opened : !stated))
        return std::nullopt;
    words = rest;
    return max;
}

/// `2 b)`, `4.b`, `(2)(b)` as read_label() takes them.
std::optional<std::string> read_loose_label(std::string_view words) {
    std::string text;
    for (const std::string_view word : split_words(words)) {
        const bool is_marker = word == "question" || word == "questions" || word == "qu" || word == "qn" ||
                               word == "ques" || word == "part" || word == "no" || word == "number" ||
                               word == "section";
        if (!is_marker && !is_among(marks_words, word))
            text.append(text.empty() ? "" : " ").append(word);
    }
    for (const std::string_view marker : {"question", "qu", "qn"})
        if (text.size() > marker.size() && is_digit(text[marker.size()]))
            drop_prefix(text, marker);
    std::string label;
    for (const char c : text) {
        const bool parts = c == '(' || c == ')' || c == '-' || c == ' ' || c == '[' || c == ']';
        if (!parts)
            label += c;
        else if (!label.empty() && is_digit(label.back()))
            label += ' '; // so that 1-2 doesn't become 12
    }
    return read_label(label);
}

bool names_code(std::string_view words) {
    const auto list = split_words(words);
    return list.size() == 2 && is_among(whose_words, list[0]) && is_among(of_code_words, list[1]);
}

bool has_subtotal_word(const std::vector<std::string_view>& words) {
    return std::any_of(words.begin(), words.end(),
                       [](std::string_view word) { return is_among(subtotal_words, word); });
}

/// The question or section's letter in a heading such as `Q1 total`.
std::optional<std::string> read_subtotal(const std::vector<std::string_view>& words) {
    std::string of;
    for (const std::string_view word : words)
        if (!is_among(subtotal_words, word) && word != "sub" && word != "of" && word != "for" &&
            word != "section" && !is_among(marks_words, word))
            of.append(of.empty() ? "" : " ").append(word);
    if (of.size() == 1 && is_letter(of.front()))
        return std::string(1, upper(of.front()));
    return read_loose_label(of);
}

ColumnHeading kind_of(std::string words) {
    ColumnHeading heading;
    if (words.empty()) {
        heading.kind = ColumnKind::blank;
        return heading;
    }
    const auto is = [&](ColumnKind kind) {
        heading.kind = kind;
        return heading;
    };
    if (is_among(candidate_words, words) || names_code(words))
        return is(ColumnKind::candidate);
    if (is_among(person_words, words))
        return is(ColumnKind::person);
    if (words == "date" || words == "date sat" || words == "sat on" || words == "test date")
        return is(ColumnKind::date);
    if (words == "only")
        return is(ColumnKind::only);
    if (is_among(extra_time_words, words))
        return is(ColumnKind::extra_time);
    if (words.find('%') != std::string::npos)
        return is(ColumnKind::remark);
    heading.max = take_max(words);
    if (is_among(total_words, words) || words == "mark" || words == "marks" || words == "score")
        return is(ColumnKind::total);
    const auto list = split_words(words);
    if (std::any_of(list.begin(), list.end(),
                    [](std::string_view word) { return is_among(remark_words, word); }))
        return is(ColumnKind::remark);
    if (has_subtotal_word(list)) {
        const auto of = read_subtotal(list);
        if (of)
            heading.label = *of;
        return is(of ? ColumnKind::subtotal : ColumnKind::unknown);
    }
    if (const auto label = read_loose_label(words)) {
        heading.label = *label;
        return is(ColumnKind::part);
    }
    return is(ColumnKind::unknown);
}

} // namespace

ColumnHeading read_heading(std::string_view written) {
    written = trimmed(written);
    if (const std::size_t colon = written.find(':'); colon != std::string_view::npos) {
        const auto paper = read_paper_heading(written.substr(0, colon));
        ColumnHeading heading = kind_of(plain_words(written.substr(colon + 1)));
        if (paper && heading.kind != ColumnKind::unknown && heading.kind != ColumnKind::blank &&
            kind_of(plain_words(written.substr(0, colon))).kind == ColumnKind::unknown) {
            heading.paper = *paper;
            return heading;
        }
    }
    return kind_of(plain_words(written));
}

bool is_heading_of_codes(std::string_view written) {
    const std::string words = plain_words(trimmed(written));
    return is_among(code_words, words) || names_code(words);
}

ClassNaming class_naming(std::string_view written) {
    constexpr std::array<std::string_view, 4> groups{"set", "group", "teaching set", "teaching group"};
    const std::string words = plain_words(trimmed(written));
    return words == "class"          ? ClassNaming::classes
           : is_among(groups, words) ? ClassNaming::groups
                                     : ClassNaming::none;
}

bool is_heading_of_names(std::string_view written) {
    const std::string words = plain_words(trimmed(written));
    return is_among(person_words, words) && words.find("name") != std::string::npos;
}

bool names_candidates(std::string_view written) {
    const ColumnKind kind = read_heading(written).kind;
    return kind == ColumnKind::candidate ||
           (kind == ColumnKind::person && !is_among(part_of_name, plain_words(trimmed(written))));
}

std::optional<std::size_t> column_of_candidates(const std::vector<std::string_view>& headings) {
    using Is = bool (*)(std::string_view);
    const Is by_rank[] = {
        [](std::string_view heading) { return lower_case(heading) == "candidate"; },
        [](std::string_view heading) {
            return is_heading_of_codes(heading) && read_heading(heading).kind == ColumnKind::candidate;
        },
        is_heading_of_codes,
        [](std::string_view heading) { return read_heading(heading).kind == ColumnKind::candidate; },
        names_candidates,
    };
    for (const Is is_one : by_rank) {
        const auto found = std::find_if(headings.begin(), headings.end(), is_one);
        if (found != headings.end())
            return static_cast<std::size_t>(found - headings.begin());
    }
    return std::nullopt;
}

bool is_class_header(const std::vector<std::string_view>& cells) {
    const auto is_filled = [](std::string_view cell) { return !trimmed(cell).empty(); };
    return std::count_if(cells.begin(), cells.end(), is_filled) > 1 &&
           std::any_of(cells.begin(), cells.end(), names_candidates);
}

bool is_header_of_names_alone(const std::vector<std::string_view>& cells) {
    const auto has = [&](ColumnKind kind) {
        return std::any_of(cells.begin(), cells.end(),
                           [&](std::string_view cell) { return read_heading(cell).kind == kind; });
    };
    return has(ColumnKind::person) && has(ColumnKind::part);
}

std::optional<std::string> read_sub_part_heading(std::string_view written) {
    const auto label = read_loose_label("1" + plain_words(trimmed(written)));
    if (!label || label->front() != '1' || (label->size() > 1 && is_digit((*label)[1])))
        return std::nullopt;
    return label->substr(1);
}

std::optional<std::string> read_paper_heading(std::string_view written) {
    std::string id = plain_words(trimmed(written));
    std::replace(id.begin(), id.end(), ' ', '-');
    try {
        check_paper_id(id);
    } catch (const Error&) {
        return std::nullopt;
    }
    return id;
}

bool names_maxima(std::string_view text) {
    return text.size() <= 20 && is_among(max_words, plain_words(trimmed(text)));
}

bool names_who_marked(std::string_view text) {
    constexpr std::array<std::string_view, 9> done{"marked",   "checked",  "moderated", "entered", "typed",
                                                   "prepared", "produced", "printed",   "exported"};
    const std::string words = plain_words(trimmed(text));
    const auto list = split_words(words);
    return list.size() >= 2 && is_among(done, list[0]) && (list[1] == "by" || list[1] == "on");
}

bool is_sentence(std::string_view text) {
    return std::count(text.begin(), text.end(), ' ') >= 2 || text.size() > 40 ||
           (!text.empty() && text.back() == ':');
}

bool is_note(const std::vector<std::string_view>& cells) {
    const auto is_blank = [](std::string_view cell) { return trimmed(cell).empty(); };
    const auto first = std::find_if_not(cells.begin(), cells.end(), is_blank);
    if (first == cells.end())
        return false;
    const auto has_mark = [](std::string_view cell) {
        return cell.find_first_of("0123456789-") != std::string::npos;
    };
    return names_no_candidate(*first) || ((names_who_marked(*first) || is_sentence(trimmed(*first))) &&
                                          std::none_of(first + 1, cells.end(), has_mark));
}

bool names_no_candidate(std::string_view text) {
    const std::string words = plain_words(trimmed(text));
    const auto list = split_words(words);
    if (list.size() == 2 && std::all_of(list[0].begin(), list[0].end(), is_digit) &&
        is_among(counted_words, list[1]))
        return true;
    const bool is_figure =
        words.find('%') != std::string::npos || words.find('=', 1) != std::string::npos; // as n=22
    return text.size() <= 30 && (is_figure || is_among(no_candidate_words, words) ||
                                 std::any_of(list.begin(), list.end(), [](std::string_view word) {
                                     return is_among(no_candidate_among, word);
                                 }));
}

} // namespace inkturn
