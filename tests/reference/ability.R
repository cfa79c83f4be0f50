#!/usr/bin/env Rscript
# Fits the model of what a candidate can do with lme4 and writes what the tests hold inkturn's own fit against.
#
#     tests/reference/ability.R
#
# It needs Debian's r-base-core and r-cran-lme4; the tests read what it wrote and need neither. It writes to
# tests/reference/ability, from fixed seeds:
#
#     NAME.csv         the marks, invented: candidate, paper, part, topic, max, marks, time in years from the year's middle
#     NAME.fitted.csv  the fit: what, of, value
#
# The share y/m of each part = level + candidate + part + topic + candidate on topic [+ the candidate's trend * time] + rest.
# All but the level are independent and Gaussian, with a mean of 0 and a variance for each kind. The rest's variance is
# v / w with w = 1, or w = m where the fit is weighted by marks. Variances by restricted maximum likelihood, no priors.
#
# The log likelihood is lme4's logLik() of a fit with REML = TRUE. With n shares s, X a column of n ones (p = 1 column),
# V the covariance of the shares at the fitted variances (sum of v_k Z_k Z_k' over the effects, plus v W^-1, W = diag(w)),
# b = (X' V^-1 X)^-1 X' V^-1 s the level and r = s - X b:
#
#     log likelihood = -1/2 [ (n - p) log(2 pi) + log|V| + log|X' V^-1 X| + r' V^-1 r ]
#
# No 1/2 log|X'X| = 1/2 log n is added (some authors do), and log|V| holds the weights: it has the term -sum(log w).
# The effects are the conditional means v_k Z_k' V^-1 r at the fitted variances.
#
# Each fit is found by several optimisers from several starts, which have to agree; then the same variances, level, effects
# and log likelihood are found again without lme4, by Newton's method on the dense V and the formula above (LSAT6 alone:
# in closed form). The script stops where any of them differ.

suppressPackageStartupMessages(library(lme4))

here <- dirname(normalizePath(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))))
folder <- file.path(here, "ability")
least_variance <- 0.005 # nearer to 0 optimisers differ
agreement <- 1e-6 # relative, between optimisers and between lme4 and the dense fit

# --- The marks ---------------------------------------------------------------------------------------------------------

# Two to eight marks for each part, four or five most often.
drawn_maxima <- function(parts) sample(2:8, parts, replace = TRUE, prob = c(2, 3, 4, 4, 3, 2, 1))

all_of <- function(letter, count) sprintf("%s%02d", letter, seq_len(count))

# Every candidate on every part, without marks yet.
sheet <- function(candidates, papers, parts, topics) {
    part <- expand.grid(number = seq_len(parts), paper = seq_len(papers))
    part$max <- drawn_maxima(nrow(part))
    part$topic <- all_of("t", topics)[sample(rep_len(seq_len(topics), nrow(part)))]
    part$part <- sprintf("p%d-%02d", part$paper, part$number)
    cells <- merge(data.frame(candidate = all_of("c", candidates)), part)
    cells$paper <- sprintf("p%d", cells$paper)
    cells$time <- 0
    cells
}

drawn <- function(of, deviation) {
    names <- unique(of)
    setNames(rnorm(length(names), 0, deviation), names)[of]
}

# Whole marks by the model: shares are clipped to what can be had and rounded to a mark.
marked <- function(cells, level, candidate, part, topic, candidate_on_topic, rest, trend = 0) {
    share <- level + drawn(cells$candidate, candidate) + drawn(cells$part, part) + drawn(cells$topic, topic) +
        drawn(paste(cells$candidate, cells$topic), candidate_on_topic) + rnorm(nrow(cells), 0, rest)
    if (trend > 0) share <- share + drawn(cells$candidate, trend) * cells$time
    cells$marks <- pmin(pmax(round(share * cells$max), 0), cells$max)
    cells[order(cells$candidate, cells$part), c("candidate", "paper", "part", "topic", "max", "marks", "time")]
}

complete <- function() {
    marked(sheet(40, 2, 20, 6), level = 0.55, candidate = 0.11, part = 0.13, topic = 0.12,
        candidate_on_topic = 0.11, rest = 0.22)
}

# A fifth of the sittings absent, and a tenth of the parts not set to a half of the candidates.
unbalanced <- function() {
    cells <- sheet(25, 3, 14, 5)
    sittings <- unique(paste(cells$candidate, cells$paper))
    absent <- sample(sittings, length(sittings) / 5)
    parts <- unique(cells$part)
    not_set <- sample(parts, round(length(parts) / 10))
    half <- sample(unique(cells$candidate), 12)
    missing <- paste(cells$candidate, cells$paper) %in% absent | cells$part %in% not_set & cells$candidate %in% half
    marked(cells[!missing, ], level = 0.6, candidate = 0.12, part = 0.14, topic = 0.12,
        candidate_on_topic = 0.12, rest = 0.2)
}

# Four papers over a school year; a third of the candidates sat each of theirs on days of their own.
trend <- function() {
    cells <- sheet(12, 4, 18, 8)
    day <- setNames(c(-150, -50, 45, 140), paste0("p", 1:4))
    sitting <- paste(cells$candidate, cells$paper)
    later <- setNames(sample(5:40, length(unique(sitting)), replace = TRUE), unique(sitting))
    late <- cells$candidate %in% all_of("c", 12)[c(2, 5, 7, 10)]
    cells$time <- round((day[cells$paper] + ifelse(late, later[sitting], 0)) / 365, 4)
    marked(cells, level = 0.5, candidate = 0.12, part = 0.12, topic = 0.12,
        candidate_on_topic = 0.12, rest = 0.18, trend = 0.25)
}

# LSAT section 6: R. D. Bock & M. Lieberman 1970, Psychometrika 35, 179-197; the patterns stand in lsat6.hpp.
lsat6 <- function() {
    text <- paste(readLines(file.path(here, "lsat6.hpp")), collapse = " ")
    pair <- unlist(regmatches(text, gregexpr('\\{"[01]{5}", *[0-9]+\\}', text)))
    pattern <- rep(substr(pair, 3, 7), as.integer(gsub(".*, *|\\}", "", pair)))
    stopifnot(length(pattern) == 1000)
    data.frame(candidate = rep(sprintf("%04d", 1:1000), each = 5), part = rep(1:5, 1000), max = 1,
        marks = as.integer(unlist(strsplit(pattern, ""))), pattern = rep(pattern, each = 5), time = 0,
        topic = c("other", "hard", "hard", "other", "other")) # invented: the two parts that fewest got
}

generated <- function(name, seed, draw) {
    RNGversion("4.2.2")
    set.seed(seed)
    cells <- draw()
    write.csv(cells, file.path(folder, paste0(name, ".csv")), row.names = FALSE, quote = FALSE)
    cells
}

# --- The fit with lme4 -------------------------------------------------------------------------------------------------

without_topics <- share ~ 1 + (1 | candidate) + (1 | part)
whole <- update(without_topics, . ~ . + (1 | topic) + (1 | candidate_on_topic)) # as candidate:topic
with_trend <- update(whole, . ~ . + (0 + time | candidate))

optimisers <- list(
    list("bobyqa", list(rhobeg = 0.2, rhoend = 1e-11, maxfun = 1e5)),
    list("Nelder_Mead", list(maxfun = 1e5, FtolAbs = 1e-15, FtolRel = 1e-16, XtolRel = 1e-11)),
    list("nloptwrap", list(algorithm = "NLOPT_LN_BOBYQA", xtol_abs = 1e-11, ftol_abs = 1e-14, maxeval = 1e5)),
    list("nloptwrap", list(algorithm = "NLOPT_LN_SBPLX", xtol_abs = 1e-11, ftol_abs = 1e-14, maxeval = 1e5)),
    list("nlminbwrap", list(abs.tol = 0, rel.tol = 1e-13, x.tol = 1e-9, eval.max = 1e4, iter.max = 1e4)))

# The relative standard deviation (effect to rest) that each kind begins with. From 2 Nelder_Mead stops early on LSAT6.
starts <- c(0.2, 0.5, 1)

# nlminb says "singular convergence" where the criterion's last digits no longer move.
quietly <- function(made) {
    withCallingHandlers(made, warning = function(said) {
        if (grepl("singular convergence", conditionMessage(said))) invokeRestart("muffleWarning")
    })
}

fit_from <- function(start, optimiser, formula, cells) {
    quietly(lmer(formula, cells, REML = TRUE, weights = weight, start = start,
        control = lmerControl(optimizer = optimiser[[1]], optCtrl = optimiser[[2]], calc.derivs = FALSE)))
}

# The criterion is so flat that an optimiser which compares its values ends some 1e-5 from the best parameters: two steps
# of Newton's method, with differences of the fourth order, carry it to the end.
sharpened <- function(parameters, criterion) {
    moved <- function(x, i, by) replace(x, i, x[i] * (1 + by))
    rise <- function(f, x, i, by) f(moved(x, i, by)) - f(moved(x, i, -by))
    slope <- function(f, x, i, by = 1e-3) (8 * rise(f, x, i, by) - rise(f, x, i, 2 * by)) / (12 * by * x[i])
    gradient <- function(x) sapply(seq_along(x), function(i) slope(criterion, x, i))
    for (step in 1:2) {
        curvature <- sapply(seq_along(parameters), function(i) slope(gradient, parameters, i))
        parameters <- parameters - solve((curvature + t(curvature)) / 2, gradient(parameters))
    }
    parameters
}

kind_of <- function(group) gsub("_", " ", sub("\\.1$", "", group))

variances <- function(fit) {
    found <- as.data.frame(VarCorr(fit))
    kind <- kind_of(found$grp)
    kind[found$grp == "Residual"] <- "rest"
    kind[found$var1 %in% "time"] <- "trend"
    setNames(found$vcov, kind)
}

effects_of <- function(fit) {
    found <- ranef(fit, condVar = FALSE)
    of <- lapply(found, function(effect) setNames(effect[["(Intercept)"]], rownames(effect)))
    names(of) <- kind_of(names(of))
    if ("time" %in% names(found$candidate)) of$trend <- setNames(found$candidate$time, rownames(found$candidate))
    of
}

relative <- function(a, b) max(abs(a - b) / abs(b))

# The largest distance of any fit from the first.
apart <- function(fits) max(sapply(fits, function(fit) relative(variances(fit), variances(fits[[1]]))))

fitted_with_lme4 <- function(cells, formula) {
    criterion <- lmer(formula, cells, REML = TRUE, weights = weight, devFunOnly = TRUE)
    parameters <- length(lFormula(formula, cells)$reTrms$theta)
    found <- list()
    for (optimiser in optimisers)
        for (start in starts) found <- c(found, fit_from(rep(start, parameters), optimiser, formula, cells))
    there <- list(NULL, list()) # no optimiser: the fit at the parameters given
    ends <- lapply(found, function(fit) fit_from(sharpened(getME(fit, "theta"), criterion), there, formula, cells))
    fit <- ends[[1]]
    stopifnot(apart(found) < 1000 * agreement, apart(ends) < agreement)
    list(variances = variances(fit), level = fixef(fit)[[1]], effects = effects_of(fit),
        log_likelihood = as.numeric(logLik(fit)), found = apart(found), ends = apart(ends))
}

# --- The same without lme4 ---------------------------------------------------------------------------------------------

# For each kind the matrix Z, a row a cell and a column a candidate, part ...; Z Z' is all that the covariance needs.
designs <- function(cells, kinds) {
    of <- list(candidate = cells$candidate, part = cells$part, topic = cells$topic, trend = cells$candidate,
        "candidate on topic" = cells$candidate_on_topic)[kinds]
    made <- lapply(of, function(names) {
        names <- factor(names)
        z <- outer(as.integer(names), seq_along(levels(names)), "==") + 0
        colnames(z) <- levels(names)
        z
    })
    if ("trend" %in% kinds) made$trend <- made$trend * cells$time
    made
}

# One evaluation of the formula at the head, its gradient and the average information at some variances.
dense <- function(variance, spread, shares) {
    v <- Reduce("+", Map("*", variance, spread))
    root <- chol(v)
    inverse <- chol2inv(root)
    sums <- rowSums(inverse) # V^-1 X
    level <- sum(sums * shares) / sum(sums)
    r <- shares - level
    solved <- drop(inverse %*% r) # P s
    projector <- inverse - tcrossprod(sums) / sum(sums)
    pulled <- sapply(spread, function(k) drop(k %*% solved))
    constant <- (length(shares) - 1) * log(2 * pi)
    list(level = level, solved = solved,
        log_likelihood = -(constant + 2 * sum(log(diag(root))) + log(sum(sums)) + sum(r * solved)) / 2,
        gradient = -(sapply(spread, function(k) sum(projector * k)) - colSums(pulled * solved)) / 2,
        information = crossprod(pulled, projector %*% pulled) / 2)
}

# Newton's method from variances a quarter above those given.
fitted_densely <- function(cells, near) {
    z <- designs(cells, setdiff(names(near), "rest"))
    spread <- c(lapply(z, tcrossprod), list(rest = diag(1 / cells$weight)))
    variance <- near[names(spread)] * 1.25
    for (step in 1:30) {
        at <- dense(variance, spread, cells$share)
        change <- drop(solve(at$information, at$gradient))
        if (max(abs(change) / variance) < 1e-11) break
        variance <- variance + change
    }
    effects <- Map(function(name, z) variance[[name]] * drop(crossprod(z, at$solved)), names(z), z)
    list(variances = variance[names(near)], level = at$level, effects = effects, log_likelihood = at$log_likelihood)
}

# Where every candidate sat every part, V = I * B + J * C (Kronecker products over the N candidates, I the unit matrix and
# J all ones): candidates about their mean have the covariance B, and their mean times the root of N has B + N C.
fitted_in_closed_form <- function(cells, near) {
    parts <- length(unique(cells$part))
    shares <- matrix(cells$share, ncol = parts, byrow = TRUE)
    n <- nrow(shares)
    mean <- colMeans(shares)
    scatter <- crossprod(sweep(shares, 2, mean))
    same_topic <- outer(cells$topic[1:parts], cells$topic[1:parts], "==") + 0
    or_none <- function(variance, kind) if (kind %in% names(variance)) variance[[kind]] else 0
    own <- function(v) v[["candidate"]] + or_none(v, "candidate on topic") * same_topic + diag(v[["rest"]], parts)
    shared <- function(v) own(v) + n * (diag(v[["part"]], parts) + or_none(v, "topic") * same_topic)
    level <- function(v) sum(solve(shared(v), mean)) / sum(solve(shared(v)))
    log_det <- function(m) as.numeric(determinant(m)$modulus)
    log_likelihood <- function(v) {
        r <- mean - level(v)
        own_part <- (n - 1) * log_det(own(v)) + sum(solve(own(v)) * scatter)
        shared_part <- log_det(shared(v)) + n * sum(r * solve(shared(v), r)) + log(n * sum(solve(shared(v))))
        -((n * parts - 1) * log(2 * pi) + own_part + shared_part) / 2
    }
    variance <- maximised(log_likelihood, near)
    about_mean <- sweep(shares, 2, mean) %*% solve(own(variance))
    cells$solved <- as.vector(t(about_mean) + solve(shared(variance), mean - level(variance)))
    of <- setNames(nm = setdiff(names(near), "rest"))
    effects <- lapply(of, function(kind) variance[[kind]] * tapply(cells$solved, cells[[gsub(" ", "_", kind)]], sum))
    list(variances = variance, level = level(variance), effects = effects, log_likelihood = log_likelihood(variance))
}

# From variances a quarter above those given.
maximised <- function(log_likelihood, near) {
    criterion <- function(variance) -log_likelihood(setNames(variance, names(near)))
    found <- nlminb(near * 1.25, criterion, lower = near / 100)$par
    setNames(sharpened(found, criterion), names(near))
}

# --- Both, compared and written ----------------------------------------------------------------------------------------

in_order <- function(effects) lapply(effects, function(effect) effect[order(names(effect))])

# How far lme4 and the fit without it lie apart: variances and level relative, effects by their largest of the kind.
compared <- function(lme4, other) {
    effects <- in_order(lme4$effects)
    others <- in_order(other$effects[names(effects)])
    stopifnot(identical(lapply(effects, names), lapply(others, names)))
    c(variances = relative(lme4$variances, other$variances), level = relative(lme4$level, other$level),
        effects = max(mapply(function(a, b) max(abs(a - b)) / max(abs(b)), effects, others)),
        log_likelihood = abs(lme4$log_likelihood - other$log_likelihood))
}

row <- function(what, of, value) data.frame(what = what, of = of, value = value)

digits <- function(value) sprintf("%.10g", value)

written <- function(name, fit) {
    effects <- in_order(fit$effects)
    versions <- c(as.character(getRversion()), packageDescription("lme4")$Version)
    rows <- rbind(row("software", c("R", "lme4"), versions),
        row("log likelihood", "", sprintf("%.8f", fit$log_likelihood)),
        row("level", "", digits(fit$level)),
        row("variance", names(fit$variances), digits(fit$variances)),
        do.call(rbind, Map(function(kind, effect) row(kind, names(effect), digits(effect)), names(effects), effects)))
    write.csv(rows, file.path(folder, paste0(name, ".fitted.csv")), row.names = FALSE, quote = FALSE)
}

fitted <- function(name, cells, formula, weight = 1, again = fitted_densely) {
    cells$share <- cells$marks / cells$max
    cells$weight <- weight
    cells$candidate_on_topic <- paste(cells$candidate, "on", cells$topic)
    fit <- fitted_with_lme4(cells, formula)
    differ <- compared(fit, again(cells, fit$variances))
    cat(sprintf("%s: %d shares, log likelihood %.8f\n", name, nrow(cells), fit$log_likelihood))
    cat(sprintf("  optimisers apart by %.1g, sharpened by %.1g\n", fit$found, fit$ends))
    cat(sprintf("  apart without lme4: %s\n", paste(names(differ), signif(differ, 2), collapse = ", ")))
    print(signif(fit$variances, 6))
    stopifnot(differ < agreement)
    fit
}

of_known_size <- function(fit) {
    stopifnot(fit$variances >= least_variance)
    fit
}

# Candidates with the same answers have the same effects: they are written once, by their answers.
by_pattern <- function(fit, cells) {
    pattern <- setNames(cells$pattern, cells$candidate)
    fit$effects <- lapply(fit$effects, function(effect) {
        candidate <- sub(" on .*", "", names(effect))
        known <- candidate %in% names(pattern)
        names(effect)[known] <- paste0(pattern[candidate[known]], sub("^[0-9]+", "", names(effect)[known]))
        effect[!duplicated(names(effect))]
    })
    fit
}

seed <- 2
data <- list(complete = generated("complete", seed, complete), unbalanced = generated("unbalanced", seed, unbalanced),
    trend = generated("trend", seed, trend), lsat6 = lsat6())

written("complete", of_known_size(fitted("complete", data$complete, whole)))
written("weighted", of_known_size(fitted("complete, weighted by marks", data$complete, whole, data$complete$max)))
written("unbalanced", of_known_size(fitted("unbalanced", data$unbalanced, whole)))
written("trend", of_known_size(fitted("trend", data$trend, with_trend)))

of_lsat6 <- function(name, formula) {
    by_pattern(fitted(name, data$lsat6, formula, again = fitted_in_closed_form), data$lsat6)
}

written("lsat6", of_known_size(of_lsat6("LSAT6", without_topics)))
written("lsat6_topics", of_lsat6("LSAT6 in two topics", whole)) # candidate on topic is below the least
