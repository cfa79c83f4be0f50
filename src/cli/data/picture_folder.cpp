#include "cli/data/picture_folder.hpp"

#include "cli/desk/mark_answers.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "exchange/picture/photograph.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace inkturn {
namespace {

namespace fs = std::filesystem;

/// What a photograph shows.
struct ShownIn {
    std::string question;
    PictureContent content = PictureContent::question;
};

/// A photograph to add.
struct PhotographToAdd {
    Picture picture;
    ShownIn shows;
};

struct FilesInFolder {
    std::vector<std::string> photographs;
    std::vector<std::string> others; ///< neither JPEG nor PNG by their names, hidden ones not among them
};

FilesInFolder files_in(const std::string& folder) {
    std::error_code failure;
    if (!fs::is_directory(folder, failure))
        throw Error("'" + folder + "' is not a folder: name the one that holds the photographs");
    FilesInFolder files;
    fs::directory_iterator next(folder, failure);
    for (const fs::directory_iterator end; !failure && next != end; next.increment(failure)) {
        const std::string ending = lower_case(next->path().extension().string());
        std::error_code unknown;
        const std::string name = next->path().filename().string();
        if (name.front() == '.' || !next->is_regular_file(unknown))
            continue;
        const bool is_photograph = ending == ".jpg" || ending == ".jpeg" || ending == ".png";
        (is_photograph ? files.photographs : files.others).push_back(name);
    }
    if (failure)
        throw Error("'" + folder + "' can't be read: " + failure.message());
    std::sort(files.photographs.begin(), files.photographs.end());
    std::sort(files.others.begin(), files.others.end());
    return files;
}

/// `IMG_1.heic, IMG_2.heic and 3 more`.
std::string first_names(const std::vector<std::string>& names) {
    constexpr std::size_t max_named = 6;
    const std::size_t named = std::min(names.size(), max_named);
    const std::vector<std::string> first(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(named));
    return visible(joined(first, named < names.size() ? ", " : " and ")) +
           (named < names.size() ? " and " + std::to_string(names.size() - named) + " more" : "");
}

std::set<std::string> bytes_on_file(const Store& store, const std::string& paper) {
    std::set<std::string> bytes;
    for (const PictureOnFile& on_file : store.pictures())
        if (on_file.paper == paper)
            if (auto picture = store.picture(on_file.id))
                bytes.insert(std::move(picture->bytes));
    return bytes;
}

/// `7`, `7 s`, `7b:scheme`. Throws Error.
ShownIn parse_shown(const Paper& paper, std::string_view text) {
    ShownIn shown;
    const std::size_t end = text.find_last_not_of(" \t");
    const std::string_view typed =
        end == std::string_view::npos ? std::string_view() : text.substr(0, end + 1);
    const std::size_t blank = typed.find_last_of(" :");
    const std::string word = blank == std::string_view::npos ? "" : lower_case(typed.substr(blank + 1));
    const bool is_scheme = !word.empty() && std::string("scheme").rfind(word, 0) == 0;
    shown.content = is_scheme ? PictureContent::scheme : PictureContent::question;
    shown.question = picture_label(paper, trimmed(is_scheme ? typed.substr(0, blank) : typed));
    return shown;
}

/// The new photographs of a folder, each read when its turn comes.
class Photographs {
  public:
    Photographs(const Context& context, const Store& store, const Paper& paper, std::string folder)
        : context_(context),
          paper_(paper),
          folder_(std::move(folder)),
          files_(files_in(folder_)),
          names_(files_.photographs),
          on_file_(bytes_on_file(store, paper.id())) {}

    /// Nothing for one that is on file. Throws Error where it can't be read.
    std::optional<Photograph> read(const std::string& name) const {
        const InputFile file(folder_ + "/" + name, context_);
        const std::string bytes{std::istreambuf_iterator<char>(file.stream()), {}};
        try {
            Photograph photograph = read_photograph(bytes);
            if (on_file_.count(photograph.picture.bytes) > 0)
                return std::nullopt;
            return photograph;
        } catch (const Error& error) {
            throw error.within(name + ": ");
        }
    }

    std::vector<PhotographToAdd> answered(const std::vector<std::string>& answers) const {
        std::vector<PhotographToAdd> all;
        std::set<std::string> named;
        for (const std::string& answer : answers) {
            const std::size_t equals = answer.rfind('=');
            if (equals == std::string::npos)
                throw Error("'" + answer +
                            "': write FILE=QUESTION, such as IMG_1.jpg=7 or IMG_2.jpg=7:scheme");
            const std::string name = answer.substr(0, equals);
            if (std::find(names_.begin(), names_.end(), name) == names_.end())
                throw Error("no photograph '" + name + "' in '" + folder_ + "'" +
                            meant(name, names_, "its JPEG and PNG files are taken"));
            if (!named.insert(name).second)
                throw Error("'" + name + "' is answered twice: leave one out");
            const ShownIn shows = parse_shown(paper_, answer.substr(equals + 1));
            auto photograph = read(name);
            if (!photograph)
                throw Error("'" + name + "' is on file already: leave it out");
            all.push_back({std::move(photograph->picture), shows});
        }
        return all;
    }

    std::vector<PhotographToAdd> asked_about() {
        std::vector<PhotographToAdd> all;
        for (std::size_t i = 0; i < names_.size(); ++i) {
            auto photograph = readable(names_[i]);
            if (!photograph || is_met(names_[i], *photograph))
                continue;
            ++fresh_;
            const auto shows = ask(i, *photograph);
            if (ended_)
                break;
            if (shows)
                all.push_back({std::move(photograph->picture), *shows});
        }
        if (fresh_ == 0)
            context_.err << "No new photographs in '" << visible(folder_) << "'.\n";
        context_.err << left_out_text();
        return all;
    }

    std::vector<std::string> new_names() {
        std::vector<std::string> fresh;
        for (const std::string& name : names_)
            if (const auto photograph = readable(name); photograph && !is_met(name, *photograph))
                fresh.push_back(name + described(*photograph));
        return fresh;
    }

    /// How many of the files looked at were not asked about, and why.
    std::string left_out_text() const {
        std::string text;
        if (known_ > 0)
            text += text_line("On file already: " + count_text(known_, "photograph") + ".");
        for (const auto& [name, first] : met_twice_)
            text += text_line("Left out: " + visible(name) + " is the same photograph as " + visible(first) +
                              ".");
        if (!files_.others.empty())
            text += text_line("Left out, as only JPEG and PNG are taken: " +
                              count_text(files_.others.size(), "file") + ", " + first_names(files_.others) +
                              ". Save photographs in another form as JPEG, then run it again.");
        return text;
    }

  private:
    /// One that can't be read is said and left out.
    std::optional<Photograph> readable(const std::string& name) {
        try {
            auto photograph = read(name);
            known_ += photograph ? 0U : 1U;
            return photograph;
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            context_.err << "Left out: " << visible(worded(error)) << '\n';
            return std::nullopt;
        }
    }

    /// Whether a file before it in the folder is the same photograph.
    bool is_met(const std::string& name, const Photograph& photograph) {
        const auto [first, is_new] = met_.emplace(photograph.picture.bytes, name);
        if (!is_new)
            met_twice_.emplace_back(name, first->second);
        return !is_new;
    }

    static std::string described(const Photograph& photograph) {
        return ", " + std::to_string(photograph.picture.width) + " x " +
               std::to_string(photograph.picture.height) +
               (photograph.trimmed ? ", trimmed to the paper" : "");
    }

    /// Nothing to leave it out.
    std::optional<ShownIn> ask(std::size_t i, const Photograph& photograph) {
        const std::string proposed = proposed_for(names_[i]);
        const std::string prompt = "File " + std::to_string(i + 1) + " of " + std::to_string(names_.size()) +
                                   ", " + visible(names_[i]) + described(photograph) + ": question" +
                                   (proposed.empty() ? "" : " [" + proposed + "]") + "? ";
        for (;;) {
            const auto typed = asked(context_, prompt);
            ended_ = !typed || *typed == "q" || *typed == "end";
            if (ended_ || *typed == "-")
                return std::nullopt;
            if (typed->empty() && proposed.empty())
                continue;
            try {
                const ShownIn shows = parse_shown(paper_, typed->empty() ? proposed : *typed);
                last_ = shows.question;
                return shows;
            } catch (const Error& error) {
                context_.err
                    << visible(error.what())
                    << "\nType a question or a part, '7 s' for its mark scheme, - to leave it out, q "
                       "to end.\n";
            }
        }
    }

    /// By its name, as `q7.jpg`, or the question after the one before.
    std::string proposed_for(const std::string& name) const {
        const std::string stem = fs::path(name).stem().string();
        if (const auto label = read_label(stem); label && paper_.find_question(*label))
            return *label;
        const std::vector<Question>& questions = paper_.questions();
        if (last_.empty())
            return questions.front().label;
        for (std::size_t i = 0; i + 1 < questions.size(); ++i)
            if (questions[i].label == question_of(last_))
                return questions[i + 1].label;
        return "";
    }

    const Context& context_;
    const Paper& paper_;
    std::string folder_;
    FilesInFolder files_;
    const std::vector<std::string>& names_; ///< of the photographs
    std::set<std::string> on_file_;
    std::map<std::string, std::string> met_;                     ///< by what is in it, the first file's name
    std::vector<std::pair<std::string, std::string>> met_twice_; ///< a file, and the first that is the same
    std::string last_;                                           ///< the question or part that was answered
    std::size_t known_ = 0;                                      ///< of those read, on file already
    std::size_t fresh_ = 0;                                      ///< asked about
    bool ended_ = false;
};

void list_new(const Context& context, const std::string& paper, const std::string& folder,
              Photographs& photographs) {
    const std::vector<std::string> names = photographs.new_names();
    if (names.empty()) {
        context.out << "No new photographs in '" << visible(folder) << "'.\n"
                    << photographs.left_out_text() << "Next: inkturn picture list\n";
        return;
    }
    context.out << count_text(names.size(), "new photograph") << " in '" << visible(folder) << "':\n";
    for (const std::string& name : names)
        context.out << "  " << visible(name) << '\n';
    context.out << photographs.left_out_text()
                << "Nothing was stored. Next: say which question each shows:\ninkturn picture add " << paper
                << " --folder " << shell_word(folder) << " FILE=QUESTION[:scheme]...\n";
}

} // namespace

bool add_photographs(const Context& context, const std::string& paper_id, const std::string& folder,
                     const std::vector<std::string>& answers) {
    std::vector<PhotographToAdd> to_add;
    {
        const Store store = context.store_to_read();
        const auto paper = Context::paper_on_file(store, paper_id);
        Photographs photographs(context, store, *paper, folder);
        if (!answers.empty())
            to_add = photographs.answered(answers);
        else if (!context.json && stdin_is_terminal() && stderr_is_terminal())
            to_add = photographs.asked_about();
        else if (!context.json)
            list_new(context, paper->id(), folder, photographs);
    }
    if (to_add.empty())
        return false;
    Store store = context.store_to_write();
    const auto paper = Context::paper_on_file(store, paper_id);
    Store::Change change(store);
    for (const PhotographToAdd& one : to_add)
        change.add_picture(*paper, one.shows.question, one.shows.content, one.picture);
    change.commit();
    return true;
}

} // namespace inkturn
