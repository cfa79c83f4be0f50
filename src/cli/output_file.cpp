#include "cli/output_file.hpp"

#include "inkturn/base/error.hpp"

#include "view/page/sheet_size.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <iterator>
#include <ostream>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace inkturn {
namespace {

Option add_output(Command& command, OutputOptions& options, const std::string& help) {
    const Option output = command.option("-o,--output", options.file, "FILE", help);
    command.flag("--force", options.force, "Overwrite an existing file");
    return output;
}

[[noreturn]] void refuse_to_write(const std::string& file, const std::string& why) {
    throw Error("'" + file + "' can't be written: " + why);
}

/// FNV-1a, 64 bits, as 16 hexadecimal digits: it tells a change by accident or by hand, and keeps no secret.
std::string sum_of(std::string_view content) {
    std::uint64_t sum = 14695981039346656037U;
    for (const char c : content)
        sum = (sum ^ static_cast<unsigned char>(c)) * 1099511628211U;
    std::string digits;
    for (int shift = 60; shift >= 0; shift -= 4)
        digits += "0123456789abcdef"[(sum >> shift) & 15U];
    return digits;
}

/// The line that marks this content, and where it goes; past the end if the content has no place for it.
std::pair<std::string, std::size_t> mark_of(const std::string& content, OwnMark mark) {
    if (mark == OwnMark::html)
        return {"<!-- inkturn " + sum_of(content) + " -->\n", content.size()};
    const std::size_t product = content.find("PRODID:");
    const std::size_t end = product == std::string::npos ? product : content.find("\r\n", product);
    return {"X-INKTURN-SUM:" + sum_of(content) + "\r\n", end == std::string::npos ? end : end + 2};
}

std::string marked(std::string content, OwnMark mark) {
    const auto [line, place] = mark_of(content, mark);
    return place == std::string::npos ? content : content.insert(place, line);
}

/// Whether the file was written here with this kind of mark, and not changed since.
bool is_own(const std::string& name, OwnMark mark) {
    if (mark == OwnMark::none)
        return false;
    std::ifstream file(name, std::ios::binary);
    std::string content{std::istreambuf_iterator<char>(file), {}};
    const std::string begins = mark == OwnMark::html ? "<!-- inkturn " : "X-INKTURN-SUM:";
    const std::size_t start = content.rfind(begins);
    const std::size_t end = start == std::string::npos ? start : content.find('\n', start);
    if (end == std::string::npos)
        return false;
    const std::string whole = content;
    content.erase(start, end + 1 - start);
    return marked(content, mark) == whole;
}

/// Not even with --force.
void check_harms_nothing(const Context& context, const std::string& file) {
    if (belongs_to_store(file, context.store_file()))
        refuse_to_write(file, "it belongs to the store; name another file");
    if (context.files_read->holds(file))
        refuse_to_write(file, "this command reads it; name another file");
}

void check_may_take_its_place(const OutputOptions& options, OwnMark mark) {
    struct stat status {};
    if (::lstat(options.file.c_str(), &status) != 0)
        return;
    if (S_ISDIR(status.st_mode))
        refuse_to_write(options.file, "it is a folder; name a file");
    if (!S_ISREG(status.st_mode))
        refuse_to_write(options.file, "it is not a regular file");
    if (!options.force && !is_own(options.file, mark))
        throw Error(
            "'" + options.file + "' already exists" +
            (mark == OwnMark::none ? "" : ", and was not written by this command or was changed since") +
            "; name another file, or use --force");
}

constexpr const char* opened_files = "/proc/self/fd/";

/// A file beside the one wanted, without a name where the system can do that, so that none is left behind if
/// the program is ended; it goes at the end of its scope unless it has taken the name wanted.
class PassingFile {
  public:
    explicit PassingFile(const std::string& wanted) : wanted_(wanted) {
        open_without_name();
        if (descriptor_ < 0) {
            name_ = wanted + ".XXXXXX";
            descriptor_ = ::mkstemp(name_.data()); // readable by its owner only
        }
        if (descriptor_ < 0)
            refuse_to_write(wanted_, std::strerror(errno));
    }
    ~PassingFile() {
        if (descriptor_ >= 0)
            ::close(descriptor_);
        if (!done_ && !name_.empty())
            ::unlink(name_.c_str());
    }
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;

    void write(const std::string& content) {
        for (std::size_t done = 0; done < content.size();) {
            const ssize_t count = ::write(descriptor_, content.data() + done, content.size() - done);
            if (count < 0 && errno != EINTR)
                refuse_to_write(wanted_, std::strerror(errno));
            done += count < 0 ? 0 : static_cast<std::size_t>(count);
        }
    }

    void take_its_name() {
        if (::fsync(descriptor_) != 0 || !take_a_name() || std::rename(name_.c_str(), wanted_.c_str()) != 0)
            refuse_to_write(wanted_, std::strerror(errno));
        done_ = true;
        const Descriptor folder(::open(folder_of(wanted_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
        if (folder.number >= 0)
            ::fsync(folder.number); // some file systems can't; the file itself is on the disk
    }

  private:
    struct Descriptor {
        explicit Descriptor(int opened) : number(opened) {}
        ~Descriptor() {
            if (number >= 0)
                ::close(number);
        }
        Descriptor(const Descriptor&) = delete;
        Descriptor& operator=(const Descriptor&) = delete;
        int number;
    };

    static std::string folder_of(const std::string& file) {
        const std::size_t slash = file.rfind('/');
        return slash == std::string::npos ? "." : file.substr(0, slash + 1);
    }

    void open_without_name() {
#ifdef O_TMPFILE
        if (::access(opened_files, X_OK) != 0) // by which it would get its name
            return;
        descriptor_ = ::open(folder_of(wanted_).c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, S_IRUSR | S_IWUSR);
#endif
    }

    /// Whether the file has one, from which it can be renamed.
    bool take_a_name() {
        if (!name_.empty())
            return true;
        std::string name = wanted_ + "." + std::to_string(::getpid());
        const std::string itself = std::string(opened_files) + std::to_string(descriptor_);
        if (::linkat(AT_FDCWD, itself.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) != 0)
            return false;
        name_ = std::move(name); // without memory, which there may be none of
        return true;
    }

    std::string wanted_;
    std::string name_; ///< empty: it has none
    int descriptor_ = -1;
    bool done_ = false;
};

} // namespace

std::string size_text(std::size_t bytes) {
    if (bytes < 1'000'000)
        return std::to_string((bytes + 999) / 1000) + " KB";
    const std::size_t tenths = (bytes + 99'999) / 100'000;
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " MB";
}

void OutputOptions::add_to(Command& command) {
    add_output(command, *this, "The file to write; - is standard output").required();
}

void OutputOptions::add_to(Command& command, const std::string& help) {
    add_output(command, *this, help);
}

void use_paper_size(const Context& context) {
    if (context.defaults->find(Default::paper_size) == "letter")
        set_sheet_size(SheetSize::letter);
}

void check_output(const Context& context, const OutputOptions& options, OwnMark mark) {
    check_harms_nothing(context, options.file);
    check_may_take_its_place(options, mark);
}

void write_output(const Context& context, const OutputOptions& options, const std::string& content,
                  OwnMark mark) {
    const std::string with_mark = mark == OwnMark::none ? "" : marked(content, mark);
    const std::string& written = mark == OwnMark::none ? content : with_mark;
    if (options.file == "-") {
        context.out << written;
        return;
    }
    check_output(context, options, mark);
    PassingFile file(options.file);
    file.write(written);
    file.take_its_name();
}

} // namespace inkturn
