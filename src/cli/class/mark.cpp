#include "cli/class/class.hpp"
#include "cli/class/row_of_marks.hpp"
#include "cli/desk/mark_answers.hpp"
#include "cli/entries.hpp"
#include "cli/remedies.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/terminal.hpp"

#include "exchange/class/class_cell.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/papers.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <csignal>
#include <iostream>
#include <poll.h>
#include <set>
#include <unistd.h>

namespace inkturn {
namespace {

struct ClassMarkOptions {
    std::string paper;
    std::string of_class;
    std::string date;
    std::string only;
};

constexpr const char* help_on_rows = "  4 2+1 - f  marks along the parts, in\n"
                                     "             one line or several\n"
                                     "  2+1+1      in time + overtime +\n"
                                     "             corrected\n"
                                     "  -          not attempted\n"
                                     "  f          full marks\n"
                                     "  2:slip     with a reason\n"
                                     "  M1A0       the mark scheme's codes\n"
                                     "  not-set    the part was not set\n"
                                     "  absent     did not sit it; also: abs\n"
                                     "  Enter, s   leaves them for later\n"
                                     "  b          goes back a part\n"
                                     "  amend CODE 2b=3\n"
                                     "             corrects one on file, or\n"
                                     "             goes to one still to come\n"
                                     "  q stops, ? shows this again\n";

volatile std::sig_atomic_t was_interrupted = 0;

extern "C" void note_interrupt(int /*signal*/) {
    was_interrupted = 1;
}

/// Control-C ends the input instead of the program, which can still say who is left. It arrives only while
/// we wait for a line, so it never comes between a whole row and the store.
class InterruptEndsInput {
  public:
    InterruptEndsInput() {
        was_interrupted = 0;
        struct sigaction action {};
        action.sa_handler = note_interrupt;
        sigaction(SIGINT, &action, &action_before_);
        sigset_t interrupt;
        sigemptyset(&interrupt);
        sigaddset(&interrupt, SIGINT);
        sigprocmask(SIG_BLOCK, &interrupt, &mask_before_);
    }
    ~InterruptEndsInput() {
        sigaction(SIGINT, &action_before_, nullptr);
        sigprocmask(SIG_SETMASK, &mask_before_, nullptr);
    }
    InterruptEndsInput(const InterruptEndsInput&) = delete;
    InterruptEndsInput& operator=(const InterruptEndsInput&) = delete;

    /// Waits until something can be read. False where Control-C came instead.
    bool waits(std::istream& in) const {
        if (was_interrupted == 0 && in.rdbuf()->in_avail() <= 0) {
            pollfd typed{STDIN_FILENO, POLLIN, 0};
            ppoll(&typed, 1, nullptr, &mask_before_);
        }
        return was_interrupted == 0;
    }

  private:
    struct sigaction action_before_ {};
    sigset_t mask_before_{};
};

std::string sum_text(const Totals& sum) {
    return marks_number(sum.unaided()) + " of " + marks_number(sum.max) +
           (sum.overtime > Marks(0) ? ", " + marks_number(sum.in_time) + " of them in time" : "");
}

/// Asks for a row of marks from each member in turn. Each is on file before the next one is asked for.
class MarkRows {
  public:
    MarkRows(const Context& context, Store& store, std::shared_ptr<const Paper> paper, Day day,
             const ClassMarkOptions& options, const InterruptEndsInput& interrupt)
        : context_(context),
          interrupt_(interrupt),
          store_(store),
          paper_(std::move(paper)),
          day_(day),
          of_class_(options.of_class),
          set_(parse_only(*paper_, options.only)),
          members_(store.members(of_class_)) {
        if (members_.empty())
            throw Error("class " + of_class_ + " has nobody in it yet: 'inkturn class add " +
                        shell_word(of_class_) + " CODE...' adds candidates");
        for (const SittingOfPaper& sitting : store.sittings_of(*paper_, std::nullopt))
            if (sitting.day == day_)
                on_file_.insert(sitting.candidate);
        absent_ = PapersOnFile::absent(store, of_class_, *paper_, day_);
    }

    void run() {
        print_opening();
        for (std::size_t at = 0; at < members_.size() && !stopped_; ++at)
            if (is_to_come(members_[at]))
                ask_row(members_[at]);
    }

    void print_closing() const {
        std::vector<std::string> left;
        for (const std::string& code : members_)
            if (is_to_come(code))
                left.push_back(visible(code));
        context_.out << '\n'
                     << text_line("On file for " + iso(day_) + ": " + std::to_string(count_on_file()) +
                                  " of " + count_text(members_.size(), "member") + ".");
        std::vector<std::string> absent;
        for (const std::string& code : absent_)
            if (on_file_.count(code) == 0)
                absent.push_back(visible(code));
        if (!absent.empty())
            context_.out << list_line("Absent:", absent, ".");
        if (!left.empty())
            context_.out << list_line("Still to come:", left, ".");
        context_.out << "Next: inkturn class " << (left.empty() ? "analyse " : "mark ")
                     << shell_argument(paper_->id()) << " --class " << shell_word(of_class_)
                     << (left.empty() ? "" : " --date " + iso(day_)) << '\n';
    }

  private:
    bool is_to_come(const std::string& code) const {
        return on_file_.count(code) == 0 && absent_.count(code) == 0;
    }

    std::size_t count_on_file() const {
        return static_cast<std::size_t>(
            std::count_if(members_.begin(), members_.end(),
                          [&](const std::string& code) { return on_file_.count(code) > 0; }));
    }

    void print_opening() const {
        std::vector<std::string> parts;
        for (const std::size_t place : set_ ? *set_ : all_positions(*paper_))
            parts.push_back(paper_->part(place).label + " of " + marks_number(paper_->part(place).max));
        context_.out << context_.heading(visible(paper_->id()) + ", class " + visible(of_class_) + ", " +
                                         day_text(day_))
                     << '\n'
                     << text_line(count_text(members_.size(), "member") + ", " +
                                  std::to_string(count_on_file()) + " on file already" + absent_already() +
                                  ".")
                     << list_line("Parts:", parts, ".") << help_on_rows;
    }

    /// Those who were absent and are not asked for again; one who sat it after all is amended.
    std::string absent_already() const {
        std::vector<std::string> codes;
        for (const std::string& code : absent_)
            if (on_file_.count(code) == 0)
                codes.push_back(visible(code));
        return codes.empty() ? "" : "; absent: " + joined(codes, ", ");
    }

    std::optional<std::string> ask(const std::string& prompt) const {
        return asked(context_, prompt, [&] { return interrupt_.waits(context_.in); });
    }

    void say_line(const std::string& text) const {
        context_.out << "  " << wrapped(visible(text), text_columns() - 2, 2) << '\n';
    }

    /// What a teacher should know before the marks are typed.
    void print_before(const Candidate& candidate) const {
        context_.out << '\n';
        for (const SittingRecord& record : candidate.sittings)
            if (record.paper->id() == paper_->id())
                say_line(candidate.code + " sat this paper on " + day_text(record.sitting.day) +
                         " already: these marks will be another sitting");
        if (const ExtraTime extra = extra_time_of(candidate); extra.percent() > 0)
            say_line(candidate.code + " has " + std::to_string(extra.percent()) +
                     "% extra time, which only the centre and the awarding body can grant");
    }

    std::string row_prompt(const std::string& code, const RowOfMarks& row) const {
        return visible(code) + (row.is_empty() ? ">" : ", from " + row.next_part().label + ">");
    }

    void ask_row(const std::string& code) {
        print_before(store_.candidate(code));
        RowOfMarks row(*paper_, set_);
        while (!row.is_whole()) {
            const auto typed = ask(row_prompt(code, row));
            stopped_ = !typed || word_of(*typed) == AnswerWord::stop;
            if (!stopped_ && leaves(code, *typed, row))
                return;
            if (stopped_) { // by now, or while another was amended
                if (!row.is_empty())
                    say_line(code + " was not finished: none of it is on file");
                return;
            }
        }
        keep_row(code, row);
    }

    /// Takes what was typed. Whether the candidate is done with, without a whole row.
    bool leaves(const std::string& code, const std::string& typed, RowOfMarks& row) {
        const std::vector<std::string> words = words_in(typed);
        const std::string first = words.empty() ? "" : lower_case(words.front());
        if (first == "amend") {
            amend(typed, code);
            return false;
        }
        if (words.size() == 1 && is_absence_word(first) && first != "a") {
            const bool is_meant =
                row.is_empty() || is_yes(code + " has marks on the parts before " + row.next_part().label +
                                         ", and none of them would be kept: was " + code + " absent? [y/N]");
            if (is_meant)
                keep_absent(code);
            return is_meant;
        }
        switch (words.size() > 1 ? AnswerWord::none : word_of(typed)) {
        case AnswerWord::skip:
            return is_left(code, typed, row);
        case AnswerWord::help:
            context_.out << help_on_rows;
            return false;
        case AnswerWord::back:
            if (!row.step_back())
                say_line("this is the first part; 'amend CODE 2b=3' corrects a candidate on file");
            return false;
        default:
            take(words, row);
            return false;
        }
    }

    /// Enter alone gives up no marks that were typed.
    bool is_left(const std::string& code, const std::string& typed, const RowOfMarks& row) const {
        if (row.is_empty())
            return true;
        if (!typed.empty())
            say_line(code + " is left for later: none of it is on file");
        return !typed.empty();
    }

    void take(const std::vector<std::string>& words, RowOfMarks& row) const {
        try {
            if (words.size() > row.parts_left())
                row.take(words); // refuses them
            for (const std::string& word : words) {
                row.take({word});
                check_accuracy(row);
            }
        } catch (const Error& error) {
            say_line(worded(error));
        }
    }

    void check_accuracy(RowOfMarks& row) const {
        const std::vector<std::string> codes = row.doubtful_codes();
        if (!codes.empty() && !is_yes(accuracy_question(codes)))
            row.step_back();
    }

    bool is_yes(const std::string& question) const {
        const std::string answer = lower_case(ask(question).value_or(""));
        return answer == "y" || answer == "yes";
    }

    bool is_doubted(const Candidate& candidate, const std::vector<PartMarks>& marks) const {
        return std::any_of(candidate.sittings.begin(), candidate.sittings.end(),
                           [&](const SittingRecord& record) {
                               return record.paper->id() == paper_->id() && record.sitting.parts == marks;
                           });
    }

    void keep_row(const std::string& code, const RowOfMarks& row) {
        try {
            const Candidate before = store_.candidate(code);
            const Sitting sitting{day_, extra_time_of(before), row.marks()};
            if (is_doubted(before, sitting.parts) &&
                !is_yes("These are the marks of the other day: keep them for this one too? [y/N]")) {
                say_line("not kept: " + code + " is asked for again next time");
                return;
            }
            store_row(code, sitting);
            say_line(code + ": " + sum_text(totals(*paper_, sitting.parts)) + ". On file.");
        } catch (const Error& error) {
            say_line(worded(error));
        }
    }

    void keep_absent(const std::string& code) {
        Store::Change change(store_);
        PapersOnFile(change).note_absent(of_class_, *paper_, day_, code);
        change.commit();
        absent_.insert(code);
        say_line(code + ": absent. On file.");
    }

    void store_row(const std::string& code, const Sitting& sitting) {
        const Day today = context_.date_today();
        Store::Change change(store_);
        keep_days_passed(change, code, today);
        change.keep_for_class(of_class_, change.add_sitting(code, *paper_, sitting));
        PapersOnFile(change).forget_absent(of_class_, *paper_, day_, code);
        keep_timetable(change, store_.candidate(code), today);
        change.commit();
        on_file_.insert(code);
        absent_.erase(code);
    }

    /// A whole row is needed of one who has none, so single entries are not taken.
    void amend_to_come(const std::string& code, const std::vector<std::string>& entries,
                       const std::string& asked_for) {
        if (!entries.empty())
            say_line(code + " has no marks on file yet, so '" + joined(entries, " ") +
                     "' was not taken: type the whole row");
        if (code != asked_for)
            ask_row(code);
        else if (entries.empty())
            say_line(code + " is the one asked for now: type the row");
    }

    /// `amend CODE ENTRY...` while a candidate is asked for; codes may hold blanks.
    void amend(const std::string& typed, const std::string& asked_for) {
        const std::string rest = typed.substr(typed.find_first_of(" \t") + 1);
        const std::string* code = nullptr;
        for (const std::string& member : members_)
            if (rest.rfind(member, 0) == 0 && (rest.size() == member.size() || rest[member.size()] == ' ') &&
                (!code || member.size() > code->size()))
                code = &member;
        if (!code || words_in(typed).size() < 2)
            say_line("amend needs the code of a member, such as amend " + members_.front() + " " +
                     paper_->parts().back().label + "=3");
        else if (const auto entries = words_in(std::string_view(rest).substr(code->size()));
                 on_file_.count(*code) == 0)
            amend_to_come(*code, entries, asked_for);
        else
            amend_on_file(*code, entries);
    }

    const SittingRecord& record_of(const Candidate& candidate) const {
        return *std::find_if(candidate.sittings.begin(), candidate.sittings.end(),
                             [&](const SittingRecord& record) {
                                 return record.paper->id() == paper_->id() && record.sitting.day == day_;
                             });
    }

    void print_marks_on_file(const Candidate& candidate) const {
        std::vector<std::string> marks;
        const std::vector<PartMarks>& parts = record_of(candidate).sitting.parts;
        for (std::size_t i = 0; i < parts.size(); ++i)
            marks.push_back(paper_->parts()[i].label + "=" + to_text(parts[i]));
        context_.out << "  " << wrapped_list(marks, text_width() - 2, 2) << '\n';
    }

    void amend_on_file(const std::string& code, std::vector<std::string> entries) {
        if (entries.empty()) {
            print_marks_on_file(store_.candidate(code));
            entries = words_in(ask("PART=MARKS, Enter leaves it>").value_or(""));
        }
        if (entries.empty())
            return;
        try {
            const Day today = context_.date_today();
            Store::Change change(store_);
            keep_days_passed(change, code, today);
            const Candidate before = store_.candidate(code);
            const SittingRecord& record = record_of(before);
            Sitting sitting = record.sitting;
            sitting.parts = amended(*paper_, sitting.parts, parse_entries(entries, {}).entries);
            check_can_replace(*paper_, sitting, record, today);
            change.change_sitting(record.id, sitting);
            keep_timetable(change, store_.candidate(code), today);
            change.commit();
            say_line(code + ": " + sum_text(totals(*paper_, sitting.parts)) + ". Amended.");
        } catch (const Error& error) {
            say_line(worded(error));
        }
    }

    const Context& context_;
    const InterruptEndsInput& interrupt_;
    Store& store_;
    std::shared_ptr<const Paper> paper_;
    Day day_;
    const std::string& of_class_;
    std::optional<std::vector<std::size_t>> set_;
    std::vector<std::string> members_;
    std::set<std::string> on_file_; ///< who has a sitting of the paper on the day
    std::set<std::string> absent_;  ///< as was said now or before; one who is on file was not
    bool stopped_ = false;
};

void check_has_terminal(const ClassMarkOptions& options) {
    if (!stdin_is_terminal() || !stdout_is_terminal())
        throw Error("class mark needs a terminal; from a file or a pipe, 'inkturn class import - --paper " +
                    shell_word(options.paper) + " --class " + shell_word(options.of_class) +
                    "' takes a row for each candidate below a row of the parts' labels");
}

void run(const Context& context, const ClassMarkOptions& options) {
    check_has_terminal(options);
    const Day day = context.date_passed(options.date);
    check_has_happened(day, context.date_today(), "a sitting");
    Store store = context.store_to_write();
    const auto paper = Context::paper_on_file(store, options.paper);
    {
        const InterruptEndsInput interrupt;
        MarkRows rows(context, store, paper, day, options, interrupt);
        rows.run();
        rows.print_closing();
        context.out << std::flush;
    }
    if (was_interrupted != 0)
        std::raise(SIGINT);
}

} // namespace

void add_class_mark(Command& group) {
    auto options = std::make_shared<ClassMarkOptions>();
    Command mark =
        group.command("mark", "Enter a class's marks as they are read out, a row for each candidate");
    mark.argument("PAPER", options->paper, "The paper's id").required();
    mark.option("--class", options->of_class, "CLASS", "The class; its members are asked for by code")
        .required();
    mark.option("--date", options->date, "D", "The day it was sat (today)");
    mark.option("--only", options->only, "1-3,7", "Only these parts and questions were set (all)");
    mark.closing("On a terminal. Each candidate is on file when their row is whole: stop, or close\n"
                 "the window, and the same command carries on with those still to come.\n"
                 "'inkturn undo' takes back all that was entered since the command began.\n"
                 "Example:\n  inkturn class mark pure-1 --class tuesday --date 2026-11-20");
    mark.runs(options, run);
}

} // namespace inkturn
