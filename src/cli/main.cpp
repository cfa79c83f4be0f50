#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/remedies.hpp"

#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <clocale>
#include <iostream>

int main(int argc, char** argv) {
    std::setlocale(LC_CTYPE, "");
    std::ios::sync_with_stdio(false);
    inkturn::Context context{std::cin, std::cout, std::cerr};
    int code = 1;
    try {
        code = inkturn::run_command_line(argc, argv, inkturn::commands(), context);
    } catch (const inkturn::UsageError& error) {
        std::cerr << "inkturn: " << inkturn::visible(error.what()) << '\n';
        return 2;
    } catch (const inkturn::Error& error) {
        std::cerr << "inkturn: " << inkturn::visible(inkturn::worded(error)) << '\n';
    } catch (const std::exception& error) {
        std::cerr << "inkturn: " << inkturn::visible(error.what()) << '\n';
    }
    if (!std::cout.flush()) {
        std::cerr << "inkturn: writing to standard output failed; is the disk full?\n";
        return 1;
    }
    return code;
}
