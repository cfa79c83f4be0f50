#include "cli/command_table.hpp"
#include "cli/commands.hpp"
#include "cli/completion.hpp"
#include "cli/context.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/error.hpp"
#include "store/memory.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <new>
#include <string_view>

namespace {

constexpr std::size_t longest_message = 1'500; ///< bytes; what was typed may be far longer

std::string cut_short(const std::string& text) {
    return text.size() <= longest_message ? text
                                          : text.substr(0, longest_message / 2) + " ... " +
                                                text.substr(text.size() - longest_message / 2);
}

/// On a terminal broken at words.
void print_error(const std::string& message) {
    const std::string text = "inkturn: " + inkturn::visible(cut_short(message));
    std::cerr << (inkturn::stderr_is_terminal() ? inkturn::wrapped(text, inkturn::text_columns(), 2) : text)
              << '\n';
}

/// Nobody should do again what is done.
void print_failure(const inkturn::Context& context, const std::string& message) {
    print_error((*context.stored ? "the change is stored; after it: " : "") + message);
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

} // namespace

int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    inkturn::leave_memory_uncounted();
    const bool is_data = std::any_of(argv, argv + argc, [](const char* word) {
        return std::string_view(word) == "--json" || std::string_view(word) == "--csv";
    });
    const inkturn::TerminalLayout layout(std::cout, is_data);
    inkturn::Context context{std::cin, std::cout, std::cerr};
    int code = 1;
    try {
        if (answers_another_program(argc, argv, context))
            return 0;
        code = inkturn::run_command_line(argc, argv, inkturn::commands(), inkturn::run_alone, context);
    } catch (const inkturn::UsageError& error) {
        print_error(error.what());
        return 2;
    } catch (const inkturn::StoreError& error) {
        print_failure(context, inkturn::worded(error));
    } catch (const inkturn::Error& error) {
        print_error(inkturn::worded(error)); // it knows what the command did
    } catch (const std::bad_alloc&) {
        print_failure(context, "there is not enough memory");
    } catch (const std::exception&) {
        print_failure(
            context,
            "inkturn made a mistake of its own; 'inkturn check' looks whether what is on file is sound");
    }
    if (!std::cout.flush()) {
        print_error(std::string(*context.stored ? "the change is stored, but " : "") +
                    "writing to standard output failed; is the disk full?");
        return 1;
    }
    return code;
}
