#include "exchange/workbook/package.hpp"

#include "exchange/workbook/zip_library.hpp"
#include "inkturn/base/error.hpp"

#include <array>
#include <optional>
#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t bytes_unpacked_at_once = 65'536;

[[noreturn]] void refuse_damaged(const std::string& how) {
    throw Error("the workbook is damaged (" + how +
                "): use a fresh copy, or open it in the spreadsheet program "
                "and save it again");
}

[[noreturn]] void refuse_large(const std::string& how) {
    throw Error("the workbook " + how +
                ": it is not read any further; save the sheet that matters as a workbook "
                "of its own, or as CSV");
}

std::string mebibytes(std::uint64_t bytes) {
    constexpr std::uint64_t mebibyte = 1'048'576;
    return std::to_string(bytes / mebibyte) + " MiB";
}

using Archive = std::unique_ptr<zip_t, decltype(&zip_discard)>;
using Entry = std::unique_ptr<zip_file_t, decltype(&zip_fclose)>;

std::string text_of_error(zip_error_t& error) {
    std::string text = zip_library().error_strerror(&error);
    zip_library().error_fini(&error);
    return text;
}

Archive open_archive(std::string_view bytes) {
    zip_error_t error;
    zip_library().error_init(&error);
    zip_source_t* source = zip_library().source_buffer_create(bytes.data(), bytes.size(), 0, &error);
    if (source == nullptr)
        refuse_damaged(text_of_error(error));
    zip_t* archive = zip_library().open_from_source(source, ZIP_RDONLY, &error);
    if (archive == nullptr) {
        zip_library().source_free(source);
        refuse_damaged(text_of_error(error));
    }
    return {archive, zip_library().discard};
}

} // namespace

struct WorkbookPackage::State {
    State(std::string_view bytes, const WorkbookLimits& of_limits)
        : limits(of_limits), archive(open_archive(bytes)) {}

    WorkbookLimits limits;
    Archive archive;
    std::uint64_t unpacked = 0; ///< bytes, of all parts read so far

    std::optional<zip_uint64_t> find(const std::string& part) const {
        const zip_int64_t index = zip_library().name_locate(archive.get(), part.c_str(), ZIP_FL_NOCASE);
        return index < 0 ? std::nullopt : std::optional(static_cast<zip_uint64_t>(index));
    }

    zip_stat_t described(zip_uint64_t index) const {
        zip_stat_t about;
        zip_library().stat_init(&about);
        if (zip_library().stat_index(archive.get(), index, 0, &about) != 0)
            refuse_damaged(zip_library().strerror(archive.get()));
        if ((about.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && about.encryption_method != ZIP_EM_NONE)
            throw Error("the workbook was saved with a password: save it without one");
        check_size(about.size, about.comp_size);
        return about;
    }

    void check_size(std::uint64_t bytes, std::uint64_t packed) const {
        if (bytes > limits.unpacked_bytes - unpacked)
            refuse_large("unpacks to more than " + mebibytes(limits.unpacked_bytes));
        if (bytes > limits.ratio_from_bytes && bytes / limits.ratio > packed)
            refuse_large("unpacks to more than " + std::to_string(limits.ratio) + " times its size");
    }

    Entry open(zip_uint64_t index) const {
        Entry entry(zip_library().fopen_index(archive.get(), index, 0), zip_library().fclose);
        if (!entry)
            refuse_damaged(zip_library().strerror(archive.get()));
        return entry;
    }

    /// Unpacks a part piece by piece, until `take` returns false.
    template <typename Take>
    void unpack(zip_uint64_t index, Take take) {
        const zip_stat_t about = described(index);
        const Entry entry = open(index);
        std::array<char, bytes_unpacked_at_once> buffer;
        std::uint64_t size = 0;
        for (;;) {
            const zip_int64_t got = zip_library().fread(entry.get(), buffer.data(), buffer.size());
            if (got < 0)
                refuse_damaged(zip_library().file_strerror(entry.get()));
            size += static_cast<std::uint64_t>(got);
            unpacked += static_cast<std::uint64_t>(got);
            if (size > about.size || (got == 0 && size < about.size))
                refuse_damaged("the size of one of its parts is not the one stated");
            if (got == 0 || !take(std::string_view(buffer.data(), static_cast<std::size_t>(got))))
                return;
        }
    }
};

WorkbookPackage::WorkbookPackage(std::string_view bytes, const WorkbookLimits& limits)
    : state_(std::make_unique<State>(bytes, limits)) {
    if (static_cast<std::size_t>(zip_library().get_num_entries(state_->archive.get(), 0)) > limits.entries)
        refuse_large("has more than " + std::to_string(limits.entries) + " parts");
}

WorkbookPackage::~WorkbookPackage() = default;

const WorkbookLimits& WorkbookPackage::limits() const {
    return state_->limits;
}

bool WorkbookPackage::has(const std::string& part) const {
    return state_->find(part).has_value();
}

void WorkbookPackage::read_xml(const std::string& part, XmlHandler& handler) {
    const auto index = state_->find(part);
    if (!index)
        refuse_damaged("its part " + part + " is missing");
    XmlReader reader(handler, part, state_->limits);
    state_->unpack(*index, [&](std::string_view piece) { return reader.take(piece); });
    reader.finish();
}

std::string WorkbookPackage::start_of(const std::string& part, std::size_t bytes) {
    std::string start;
    if (const auto index = state_->find(part))
        state_->unpack(*index, [&](std::string_view piece) {
            start += piece.substr(0, bytes - start.size());
            return start.size() < bytes;
        });
    return start;
}

} // namespace inkturn
