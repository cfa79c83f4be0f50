#include "cli/command_table.hpp"
#include "cli/commands.hpp"
#include "cli/completion.hpp"
#include "cli/context.hpp"
#include "cli/csv_options.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/error.hpp"
#include "store/memory.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <iostream>
#include <new>
#include <string_view>
#include <unistd.h>

namespace {

constexpr const char* no_memory = "there is not enough memory";
constexpr const char* stored_first = "the change is stored; after it: ";
constexpr std::size_t longest_message = 1'500; ///< bytes; what was typed may be far longer

std::string cut_short(const std::string& text) {
    return text.size() <= longest_message ? text
                                          : text.substr(0, longest_message / 2) + " ... " +
                                                text.substr(text.size() - longest_message / 2);
}

void print_error(const std::string& message) {
    std::cerr << inkturn::message_line("inkturn: " + inkturn::visible(cut_short(message)));
}

/// Without a stream, whose buffers take memory.
void say_no_memory(bool is_stored) {
    for (const char* text : {"inkturn: ", is_stored ? stored_first : "", no_memory, "\n"})
        if (::write(STDERR_FILENO, text, std::strlen(text)) < 0)
            return;
}

/// Nobody should do again what is done. Says it also where there is no memory left for words.
template <typename Wording>
void print_failure(const inkturn::Context& context, const char* once_stored, const Wording& wording) {
    const char* const stored = *context.stored ? once_stored : "";
    try {
        print_error(stored + std::string(wording()));
    } catch (const std::bad_alloc&) {
        say_no_memory(*context.stored);
    }
}

/// Whether it was a shell that completes what is being typed, or what makes the man pages: words that no help
/// names.
bool answers_another_program(int argc, char** argv, inkturn::Context& context) {
    const std::vector<std::string> words(argv + std::min(argc, 2), argv + argc);
    const std::string_view asked = argc > 1 ? argv[1] : "";
    if (asked == "complete")
        inkturn::complete(words, inkturn::commands(), context);
    else if (asked == "command-table")
        std::cout << inkturn::json_of(inkturn::command_table(inkturn::commands(), context)) << '\n';
    return asked == "complete" || asked == "command-table";
}

const bool* is_stored = nullptr; ///< whether a change is; null before any can be

/// Where memory runs out while something is taken apart, for which C++ ends a program.
[[noreturn]] void leave_without_memory() {
    try {
        if (const auto failure = std::current_exception())
            std::rethrow_exception(failure);
    } catch (const std::bad_alloc&) {
        say_no_memory(is_stored && *is_stored);
        std::_Exit(1);
    } catch (...) { // a mistake of ours
    }
    std::abort();
}

/// What main() does, but for memory that runs out before there is anything to say.
int run(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    inkturn::leave_memory_uncounted();
    const bool is_data = std::any_of(argv, argv + argc, [](const char* word) {
        return std::string_view(word) == "--json" || std::string_view(word) == "--csv";
    });
    const inkturn::TerminalLayout layout(std::cout, is_data);
    inkturn::Context context{std::cin, std::cout, std::cerr};
    is_stored = context.stored.get();
    int code = 1;
    try {
        if (answers_another_program(argc, argv, context))
            return 0;
        code = inkturn::run_command_line(argc, argv, inkturn::commands(), inkturn::run_alone, context);
    } catch (const inkturn::UsageError& error) {
        print_failure(context, "", [&] { return error.what(); });
        return 2;
    } catch (const inkturn::StoreError& error) {
        print_failure(context, stored_first, [&] { return inkturn::worded(error); });
    } catch (const inkturn::Error& error) { // it knows what the command did
        print_failure(context, "", [&] { return inkturn::worded(error); });
    } catch (const std::bad_alloc&) {
        print_failure(context, stored_first, [] { return no_memory; });
    } catch (const std::exception&) {
        print_failure(context, stored_first, [] {
            return "inkturn made a mistake of its own; 'inkturn check' looks whether what is on file is "
                   "sound";
        });
    }
    if (!std::cout.flush()) {
        print_failure(context, "the change is stored, but ",
                      [] { return "writing to standard output failed; is the disk full?"; });
        return 1;
    }
    return code;
}

} // namespace

int main(int argc, char** argv) {
    std::set_terminate(leave_without_memory);
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        say_no_memory(false);
        return 1;
    }
}
