# Writes the sets that fetch_marks describes: Rscript marks.R LIBRARY LSAT6 FOLDER

given <- commandArgs(trailingOnly = TRUE)
library_folder <- given[1]
folder <- given[3]

# A set of a package that was unpacked but not installed: a file of its own or one in the package's database.
set_of <- function(package, name) {
    data <- file.path(library_folder, package, "data")
    found <- new.env()
    alone <- file.path(data, paste0(name, ".rda"))
    if (file.exists(alone)) load(alone, found) else lazyLoad(file.path(data, "Rdata"), found)
    get(name, found)
}

# Marks: a matrix, a row a candidate and a column a part.
written <- function(name, marks, topics, max = 1) {
    stopifnot(length(topics) == ncol(marks))
    max <- rep_len(max, ncol(marks))
    stopifnot(marks[!is.na(marks)] >= 0, t(marks) <= max | is.na(t(marks)))
    cells <- data.frame(candidate = rep(seq_len(nrow(marks)), each = ncol(marks)), paper = name,
        part = rep(colnames(marks), nrow(marks)), topic = rep(topics, nrow(marks)), max = rep(max, nrow(marks)),
        marks = as.vector(t(marks)))
    cells <- cells[!is.na(cells$marks), ]
    write.csv(cells, file.path(folder, paste0(name, ".csv")), row.names = FALSE, quote = FALSE)
    cat(sprintf("%s.csv: %d candidates, %d parts, %d marks, %d topics\n", name, nrow(marks), ncol(marks), nrow(cells),
        length(unique(topics))))
}

lsat6 <- function() {
    text <- paste(readLines(given[2]), collapse = " ")
    pair <- unlist(regmatches(text, gregexpr('\\{"[01]{5}", *[0-9]+\\}', text)))
    pattern <- rep(substr(pair, 3, 7), as.integer(gsub(".*, *|\\}", "", pair)))
    stopifnot(length(pattern) == 1000)
    marks <- matrix(as.integer(unlist(strsplit(pattern, ""))), ncol = 5, byrow = TRUE)
    colnames(marks) <- 1:5
    written("lsat6", marks, rep("lsat6", 5))
}

mathexam <- function() {
    marks <- unclass(set_of("psychotools", "MathExam14W"))$solved
    marks <- matrix(as.integer(unclass(marks)), nrow(marks), dimnames = list(NULL, colnames(unclass(marks))))
    topic <- c(quad = "analysis", deriv = "analysis", elasticity = "analysis", integral = "analysis", interest = "finance",
        annuity = "finance", payflow = "finance", matrix = "algebra", planning = "algebra", equations = "algebra",
        hesse = "analysis", implicit = "analysis", lagrange = "analysis")
    written("mathexam", marks, topic[colnames(marks)])
}

quiz <- function() {
    marks <- set_of("psychotree", "SPISA")$spisa
    colnames(marks) <- seq_len(ncol(marks))
    written("quiz", marks, rep(c("politics", "history", "economy", "culture", "science"), each = 9))
}

ability <- function() {
    marks <- set_of("psychTools", "ability")
    written("ability", marks, sub("\\..*", "", colnames(marks)))
}

deug <- function() {
    set <- set_of("ade4", "deug")
    with_half <- set$cent > 0
    marks <- floor(as.matrix(set$tab)[, with_half] + 0.5)
    topic <- c(Algebra = "mathematics", Analysis = "mathematics", Proba = "mathematics", Option1 = "option", Option2 = "option")
    own <- topic[colnames(marks)]
    written("deug", marks, ifelse(is.na(own), tolower(colnames(marks)), own), 2 * set$cent[with_half])
}

lsat6()
mathexam()
quiz()
ability()
deug()
