#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/error.hpp"
#include "store/memory.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <string_view>

namespace {

/// On a terminal broken at words.
void print_error(const std::string& message) {
    const std::string text = "inkturn: " + inkturn::visible(message);
    std::cerr << (inkturn::stderr_is_terminal() ? inkturn::wrapped(text, inkturn::text_columns(), 2) : text)
              << '\n';
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
        code = inkturn::run_command_line(argc, argv, inkturn::commands(), inkturn::run_alone, context);
    } catch (const inkturn::UsageError& error) {
        print_error(error.what());
        return 2;
    } catch (const inkturn::Error& error) {
        print_error(inkturn::worded(error));
    } catch (const std::exception& error) {
        print_error(error.what());
    }
    if (!std::cout.flush()) {
        std::cerr << "inkturn: writing to standard output failed; is the disk full?\n";
        return 1;
    }
    return code;
}
