#include "cli/completion.hpp"

#include "cli/command_table.hpp"
#include "cli/context.hpp"
#include "cli/next_words.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cstdlib>
#include <ostream>

namespace inkturn {
namespace {

bool is_option(const std::string& word) {
    return word.size() > 1 && word.front() == '-' && word != "--";
}

const OptionRow* find_option(const std::vector<OptionRow>& options, const std::string& name) {
    for (const OptionRow& option : options)
        if (std::find(option.names.begin(), option.names.end(), name) != option.names.end())
            return &option;
    return nullptr;
}

/// Goes along the words typed, as the parser will.
class Reader {
  public:
    explicit Reader(const CommandRow& program) : path_{&program} {}

    void read(const std::string& word) {
        if (awaited_) {
            keep(*awaited_, word);
            awaited_ = nullptr;
        } else if (is_option(word) && !only_arguments_) {
            read_option(word);
        } else if (word == "--") {
            only_arguments_ = true;
        } else if (const CommandRow* command = find_command(word)) {
            path_.push_back(command);
            name_ += (name_.empty() ? "" : " ") + word;
        } else {
            typed_.push_back(word);
        }
    }

    const OptionRow* awaited() const { return awaited_; } ///< the option whose value comes next; else null
    bool only_arguments() const { return only_arguments_; }
    const CommandRow& command() const { return *path_.back(); }
    const std::string& name() const { return name_; } ///< `class import`
    const std::vector<std::string>& typed() const { return typed_; }
    const std::vector<std::pair<std::string, std::string>>& values() const { return values_; }

    const OptionRow* option(const std::string& name) const {
        for (const CommandRow* command : path_)
            if (const OptionRow* found = find_option(command->options, name))
                return found;
        return nullptr;
    }

    /// The options that may come, those of the innermost command first.
    std::vector<OptionRow> options() const {
        std::vector<OptionRow> all;
        for (auto command = path_.rbegin(); command != path_.rend(); ++command)
            for (const OptionRow& option : (*command)->options)
                if (find_option(all, option.names.back()) == nullptr)
                    all.push_back(option);
        return all;
    }

    /// The argument that comes next; the last one if it takes several.
    const OptionRow* next_argument() const {
        const auto& arguments = command().arguments;
        if (typed_.size() < arguments.size())
            return &arguments[typed_.size()];
        return !arguments.empty() && arguments.back().repeats ? &arguments.back() : nullptr;
    }

  private:
    const CommandRow* find_command(const std::string& word) const {
        const auto& commands = command().commands;
        const auto found = std::find_if(commands.begin(), commands.end(),
                                        [&](const CommandRow& one) { return one.name == word; });
        return found == commands.end() || !typed_.empty() ? nullptr : &*found;
    }

    void read_option(const std::string& word) {
        const std::size_t sign = word.find('=');
        const OptionRow* found = option(word.substr(0, sign));
        if (found && !found->value.empty() && sign == std::string::npos)
            awaited_ = found;
        else if (found && sign != std::string::npos)
            keep(*found, word.substr(sign + 1));
    }

    void keep(const OptionRow& option, const std::string& value) {
        values_.emplace_back(option.names.back(), value);
    }

    std::vector<const CommandRow*> path_;
    std::string name_;
    std::vector<std::string> typed_; ///< arguments
    std::vector<std::pair<std::string, std::string>> values_;
    const OptionRow* awaited_ = nullptr;
    bool only_arguments_ = false;
};

std::string value_of(const Reader& reader, const std::string& name) {
    for (const auto& [option, value] : reader.values())
        if (option == name)
            return value;
    return {};
}

/// The first sentence or clause is enough beside a name.
std::string short_help(const std::string& help) {
    return help.substr(0, help.find_first_of(".;"));
}

NextWords commands_and_options(const Reader& reader, const std::string& word) {
    NextWords words;
    if (!word.empty() && word.front() == '-') {
        for (const OptionRow& option : reader.options())
            words.push_back({option.names.back(), short_help(option.help)});
        return words;
    }
    if (reader.typed().empty())
        for (const CommandRow& command : reader.command().commands)
            words.push_back({command.name, short_help(command.help)});
    if (reader.typed().empty() && reader.name().empty())
        words.push_back({"help", "What a command does, with examples"});
    return words;
}

/// Only the command typed is described, as when it runs.
std::vector<CommandEntry> needed(const std::vector<CommandEntry>& commands,
                                 const std::vector<std::string>& words) {
    std::vector<CommandEntry> named;
    std::copy_if(commands.begin(), commands.end(), std::back_inserter(named), [&](const CommandEntry& one) {
        return std::find(words.begin(), words.end() - 1, one.name) != words.end() - 1;
    });
    return named.empty() ? commands : named;
}

/// As typed, or else from the environment, as the parser takes them.
void take_options(const Reader& reader, Context& context) {
    struct Global {
        const char* option;
        const char* variable;
        std::string& value;
    };
    for (const Global& one : {Global{"--store", "INKTURN_STORE", context.store},
                              Global{"--candidate", "INKTURN_CANDIDATE", context.candidate},
                              Global{"--today", "INKTURN_TODAY", context.today}}) {
        const char* in_environment = std::getenv(one.variable);
        one.value = value_of(reader, one.option);
        if (one.value.empty() && in_environment)
            one.value = in_environment;
    }
}

NextWords next_words_for(const Reader& reader, const std::string& word, const Context& context) {
    const NextWordRequest asked{reader.name(), reader.typed(), value_of(reader, "--class"), word};
    if (const OptionRow* option = reader.awaited())
        return next_words_of(option->names.back(), option->value, asked, context);
    const std::size_t sign = word.find('=');
    if (is_option(word) && sign != std::string::npos && !reader.only_arguments()) {
        const OptionRow* option = reader.option(word.substr(0, sign));
        NextWords words =
            option ? next_words_of(option->names.back(), option->value, asked, context) : NextWords();
        for (NextWord& one : words)
            one.text.insert(0, word.substr(0, sign + 1));
        return words;
    }
    NextWords words = reader.only_arguments() ? NextWords() : commands_and_options(reader, word);
    const OptionRow* argument = is_option(word) ? nullptr : reader.next_argument();
    if (argument) {
        NextWords more = next_words_of("", argument->names.front(), asked, context);
        words.insert(words.end(), more.begin(), more.end());
    }
    return words;
}

void print(const Context& context, const NextWords& words, const std::string& word) {
    for (const NextWord& one : words)
        if (one.text == names_of_files)
            context.out << names_of_files << '\n';
        else if (one.text.rfind(word, 0) == 0 && one.text.find_first_of("\t\n") == std::string::npos)
            context.out << one.text << (one.meaning.empty() ? "" : "\t" + visible(one.meaning)) << '\n';
}

} // namespace

void complete(std::vector<std::string> words, const std::vector<CommandEntry>& commands, Context& context) {
    if (words.empty())
        return;
    if (words.size() > 1 && words.front() == "help")
        words.erase(words.begin());
    const CommandRow program = command_table(needed(commands, words), context);
    Reader reader(program);
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
        reader.read(words[i]);
    take_options(reader, context);
    NextWords next;
    try {
        next = next_words_for(reader, words.back(), context);
    } catch (const Error&) {
        return;
    }
    print(context, next, words.back());
}

} // namespace inkturn
