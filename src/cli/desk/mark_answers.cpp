#include "cli/desk/mark_answers.hpp"

#include "cli/terminal.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/noted_entries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {

std::optional<std::string> asked(const Context& context, const std::string& prompt,
                                 const std::function<bool()>& waits) {
    if (!context.in)
        return std::nullopt;
    context.out << wrapped(prompt, text_columns()) << ' ' << std::flush;
    std::string line;
    if ((waits && !waits()) || !std::getline(context.in, line)) {
        context.out << '\n';
        return std::nullopt;
    }
    const std::size_t first = std::min(line.find_first_not_of(" \t\r"), line.size());
    return line.substr(first, line.find_last_not_of(" \t\r") + 1 - first);
}

const char* const help_on_answers = "  3       marks in time; f: full marks\n"
                                    "  2+1     in time + overtime\n"
                                    "  2+1+1   in time + overtime + corrected\n"
                                    "  M1 A0   the mark scheme's codes\n"
                                    "  -       not attempted\n"
                                    "  not-set the part was not set\n"
                                    "  2:slip  with a reason: method, recall,\n"
                                    "          slip, misread or unfinished\n"
                                    "  Enter skips, b goes back, q stops,\n"
                                    "  ? shows this again\n";

const char* const help_on_reasons = "  method, recall, slip, misread or\n"
                                    "  unfinished; the first letters will do.\n"
                                    "  Enter leaves it, - removes it\n";

const char* const help_on_notes = "  what to remember of it, shown after\n"
                                  "  the next attempt. Enter leaves it,\n"
                                  "  - removes it; what may be marks needs\n"
                                  "  quotes\n";

AnswerWord word_of(const std::string& typed) {
    const std::string text = lower_case(typed);
    const auto is = [&](const char* word, const char* letter) { return text == word || text == letter; };
    return is("back", "b") || text == "<" ? AnswerWord::back
           : is("skip", "s")              ? AnswerWord::skip
           : is("stop", "q")              ? AnswerWord::stop
           : is("full", "f")              ? AnswerWord::full
           : is("help", "?")              ? AnswerWord::help
           : text.empty()                 ? AnswerWord::skip
                                          : AnswerWord::none;
}

namespace {

/// `M1 A0`
bool may_be_codes(const std::string& typed) {
    return is_coded(typed) && typed.find_first_of("0123456789") != std::string::npos &&
           typed.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789+ ") == std::string::npos;
}

} // namespace

std::string note_meant(const std::string& typed) {
    if (typed == "-")
        return "";
    if (typed.size() > 2 && typed.front() == '"' && typed.back() == '"')
        return typed.substr(1, typed.size() - 2);
    if (may_be_entry(typed) || may_be_codes(typed) || word_of(typed) == AnswerWord::full)
        throw Error("'" + typed +
                    "' may be the marks of the next part: press Enter first. If it is a note, type it "
                    "in quotes: \"" +
                    typed + "\"");
    return typed;
}

bool is_bare(const std::string& typed) {
    return !is_coded(typed) && typed.find('+') == std::string::npos;
}

PartMarks read_marks(const std::string& typed, const Part& part, Phase first) {
    if (is_coded(typed))
        return marks_from_codes(typed, part, first);
    PartMarks marks = parse_part_marks(typed, part.max);
    check_by_code(marks, part);
    return marks;
}

PartMarks with_known(PartMarks marks, const std::optional<PartMarks>& before, Marks max) {
    if (!before || !marks.is_set())
        return marks;
    if (!marks.reason() && marks.unaided() < max && before->reason())
        marks.state_reason(*before->reason(), max);
    if (!marks.by_code() && marks.attempted() && marks.in_time() == before->in_time() &&
        marks.overtime() == before->overtime() && before->by_code())
        marks.state_by_code(*before->by_code(), max);
    return marks;
}

PartMarks exchanged(const PartMarks& marks, Marks max) {
    PartMarks other({marks.overtime(), marks.in_time(), marks.corrected()}, max);
    if (marks.reason() && other.in_time() != max)
        other.state_reason(*marks.reason(), max);
    if (marks.by_code())
        other.state_by_code(*marks.by_code(), max);
    return other;
}

std::string accuracy_question(const std::vector<std::string>& codes) {
    std::string text;
    for (const std::string& code : codes)
        text += (text.empty() ? "" : ", ") + code;
    return text + (codes.size() == 1 ? " without its M: does it follow through? [y/N]"
                                     : " without their M: do they follow through? [y/N]");
}

} // namespace inkturn
