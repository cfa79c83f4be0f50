#include "cli/help.hpp"

#include "sheet/table.hpp"
#include "sheet/text.hpp"

namespace inkturn {
namespace {

constexpr std::size_t name_width = 24;

/// A name and what it means beside it, or below it where the name is too long.
std::string entry(std::string name, const std::string& meaning) {
    name.insert(0, "  ");
    if (name.size() + 2 > name_width)
        name += '\n' + std::string(name_width, ' ');
    else
        name.resize(name_width, ' ');
    return name + wrapped(meaning, Table::full_width - name_width, name_width) + '\n';
}

class HelpFormatter : public CLI::Formatter {
  public:
    HelpFormatter() {
        label("SUBCOMMAND", "COMMAND");
        label("Subcommands", "Commands");
        label("Positionals", "Arguments");
    }

    std::string make_option(const CLI::Option* option, bool is_positional) const override {
        const std::string name = make_option_name(option, is_positional);
        return entry(is_positional ? name : name + make_option_opts(option), make_option_desc(option));
    }

    std::string make_option_opts(const CLI::Option* option) const override {
        const std::string text = option->get_items_expected() == 0 ? "" : " " + option->get_type_name();
        return text + (option->get_required() ? " (required)" : "");
    }

    std::string make_subcommand(const CLI::App* command) const override {
        return entry(command->get_name(), command->get_description());
    }

    std::string make_description(const CLI::App* command) const override {
        return wrapped(command->get_description(), Table::full_width) + '\n';
    }
};

} // namespace

std::shared_ptr<CLI::FormatterBase> help_formatter() {
    return std::make_shared<HelpFormatter>();
}

} // namespace inkturn
