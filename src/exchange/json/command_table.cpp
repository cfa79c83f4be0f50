#include "exchange/json/command_table.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json value_of(const std::vector<OptionRow>& options) {
    Json all = Json::array();
    for (const OptionRow& option : options)
        all.push_back({{"names", option.names},
                       {"value", option.value},
                       {"help", option.help},
                       {"required", option.required},
                       {"repeats", option.repeats}});
    return all;
}

Json value_of(const CommandRow& command) {
    Json commands = Json::array();
    for (const CommandRow& inner : command.commands)
        commands.push_back(value_of(inner));
    return {{"name", command.name},
            {"occasion", command.occasion},
            {"help", command.help},
            {"closing", command.closing},
            {"arguments", value_of(command.arguments)},
            {"options", value_of(command.options)},
            {"commands", std::move(commands)}};
}

} // namespace

std::string json_of(const CommandRow& program) {
    return text_of(value_of(program));
}

} // namespace inkturn
