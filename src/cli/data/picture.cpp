#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/picture_folder.hpp"
#include "cli/output_file.hpp"

#include "exchange/json/picture.hpp"
#include "exchange/picture/picture.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct PictureOptions {
    std::string paper;
    std::string question;
    std::vector<std::string> files;
    std::string picture;
    std::string folder;
    OutputOptions output;
    bool scheme = false;
};

PictureId id_of(const PictureOptions& options) {
    return PictureId{parse_whole_number(options.picture, 1, 2'000'000'000, "picture")};
}

Picture picture_on_file(const Store& store, const PictureOptions& options) {
    auto picture = store.picture(id_of(options));
    if (!picture)
        throw Error("no picture " + options.picture +
                    " on file; 'inkturn picture list' shows those that are");
    return std::move(*picture);
}

void print_pictures(const Context& context, const std::vector<PictureOnFile>& pictures) {
    if (pictures.empty()) {
        context.out << "No pictures on file. Next: inkturn picture add PAPER QUESTION FILE\n";
        return;
    }
    Table table({{"picture", Table::Align::right},
                 {"paper", Table::Align::left_may_be_cut},
                 {"question"},
                 {"shows"},
                 {"kind"},
                 {"pixels", Table::Align::right},
                 {"KB", Table::Align::right}});
    for (const PictureOnFile& picture : pictures)
        table.add_row({std::to_string(static_cast<std::int64_t>(picture.id)), picture.paper, picture.question,
                       std::string(name(picture.content)), std::string(name(picture.kind)),
                       std::to_string(picture.width) + " x " + std::to_string(picture.height),
                       std::to_string((picture.bytes + 999) / 1000)});
    context.out << table << "\nNext: inkturn booklet -o FILE.html\n";
}

/// People are shown those of a paper alone, if one is named.
void list_pictures(const Context& context, const Store& store, const std::string& paper = {}) {
    std::vector<PictureOnFile> pictures = store.pictures();
    context.answer([&] { return json_of(pictures); },
                   [&] {
                       if (!paper.empty())
                           pictures.erase(
                               std::remove_if(pictures.begin(), pictures.end(),
                                              [&](const PictureOnFile& one) { return one.paper != paper; }),
                               pictures.end());
                       print_pictures(context, pictures);
                   });
}

std::vector<Picture> read_all(const Context& context, const PictureOptions& options) {
    std::vector<Picture> pictures;
    for (const std::string& name : options.files) {
        const InputFile file(name, context);
        try {
            pictures.push_back(read_picture(file.stream()));
        } catch (const Error& error) {
            throw error.within(file.name() + ": ");
        }
    }
    return pictures;
}

/// With --folder the words after the paper are answers.
void add_of_folder(const Context& context, const PictureOptions& options) {
    if (options.scheme)
        throw UsageError("with --folder, --scheme goes with each file: FILE=QUESTION:scheme");
    std::vector<std::string> answers = options.files;
    if (!options.question.empty())
        answers.insert(answers.begin(), options.question);
    if (!add_photographs(context, options.paper, options.folder, answers) && !context.json)
        return;
    const Store store = context.store_to_read();
    list_pictures(context, store, Context::paper_on_file(store, options.paper)->id());
}

void add(const Context& context, const PictureOptions& options) {
    if (!options.folder.empty()) {
        add_of_folder(context, options);
        return;
    }
    if (options.question.empty() || options.files.empty())
        throw UsageError("give the question and its FILE..., or --folder");
    Store store = context.store_to_write();
    const auto paper = Context::paper_on_file(store, options.paper);
    const std::string question = picture_label(*paper, options.question);
    const std::vector<Picture> pictures = read_all(context, options);
    Store::Change change(store);
    for (const Picture& picture : pictures)
        change.add_picture(*paper, question,
                           options.scheme ? PictureContent::scheme : PictureContent::question, picture);
    change.commit();
    list_pictures(context, store, paper->id());
}

void show(const Context& context, const PictureOptions& options) {
    const Store store = context.store_to_read();
    const Picture picture = picture_on_file(store, options);
    write_output(context, options.output, picture.bytes);
    if (options.output.file != "-")
        context.out << "Wrote a " << name(picture.kind) << " of " << picture.width << " x " << picture.height
                    << " pixels.\nNext: inkturn picture list\n";
}

void remove(const Context& context, const PictureOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    picture_on_file(store, options);
    change.remove_picture(id_of(options));
    change.commit();
    list_pictures(context, store);
}

} // namespace

void add_picture(Command& line) {
    auto options = std::make_shared<PictureOptions>();
    Command group =
        line.group("picture", "Photographs of questions and mark schemes: add, list, show, remove");
    group.closing("Example:\n  inkturn picture add pure-1 7 question7.jpg");

    Command add_some = group.command("add", "Add pictures of a question, in reading order");
    add_some.argument("PAPER", options->paper, "The paper's id").required();
    add_some.argument("QUESTION", options->question, "The question, or one part of it");
    add_some.argument("FILE", options->files, "PNG or JPEG, up to 12 MB each; - reads standard input");
    add_some.option("--folder", options->folder, "F",
                    "Walk through the new photographs in a folder, one question each; in scripts "
                    "FILE=QUESTION[:scheme]...");
    add_some.flag("--scheme", options->scheme, "They show its mark scheme");
    add_some.json();
    add_some.closing("Examples:\n  inkturn picture add pure-1 7 top.jpg bottom.jpg\n"
                     "  inkturn picture add pure-1 --folder photographs\n"
                     "Only JPEG and PNG are read: save others, such as HEIC, as JPEG first.\n"
                     "Of a folder, a sheet whose edges are plain to see is trimmed to them and set\n"
                     "straight.\n"
                     "Where and when it was taken isn't stored, nor are colour profiles and comments.");
    add_some.runs(options, add);

    Command list_all = group.command("list", "List the pictures on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn picture list");
    list_all.runs([](const Context& context) { list_pictures(context, context.store_to_read()); });

    Command show_one = group.command("show", "Write a picture to a file");
    show_one.argument("PICTURE", options->picture, "Its number in the list").required();
    options->output.add_to(show_one);
    show_one.closing("Example:\n  inkturn picture show 3 -o question7.jpg");
    show_one.runs(options, show);

    Command remove_one = group.command("remove", "Remove a picture");
    remove_one.argument("PICTURE", options->picture, "Its number in the list").required();
    remove_one.json();
    remove_one.closing("Example:\n  inkturn picture remove 3");
    remove_one.runs(options, remove);
}

} // namespace inkturn
