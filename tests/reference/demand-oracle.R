# SPDX-License-Identifier: GPL-3.0-or-later
# Compares demand lines with R's package survival: survreg (Surv (lo, hi, type = "interval2")), started
# from least squares (with its own start it stops at a wrong answer now and then). Random series of many
# shapes, fixed seed. Usage: Rscript demand-oracle.R DRIVER; speaks TAP.

driver <- commandArgs(trailingOnly = TRUE)[1]
if (!suppressWarnings(require(survival, quietly = TRUE))) {
  cat("1..1\nnot ok 1 - the package survival is missing\n")
  quit(status = 1)
}
set.seed(20261125)

sizes <- c(5, 6, 8, 12, 20, 50, 200, 2000)
shapes <- c("bounded", "passes", "mixed", "over-range", "duplicates")

make_series <- function(n, shape) {
  scale <- 10^runif(1, -3, 3)
  shift <- runif(1, -50, 50)
  rate <- runif(1, -0.05, 1.5)
  x <- if (shape == "duplicates") rep(sort(runif(ceiling(n / 2), 0, 400)), 2)[1:n]
       else sort(runif(n, 0, 400))
  x <- x * 10^runif(1, -2, 2) + runif(1, -100, 100)
  z <- shift + rate * (x - min(x)) / max(x - min(x)) * n + rnorm(n) * runif(1, 0.6, 3)
  low <- floor(z)
  high <- low + sample(c(1, 1, 2, 3), n, replace = TRUE)
  if (shape %in% c("passes", "mixed")) {
    open <- runif(n) < 0.4
    low[open] <- -Inf
  }
  if (shape %in% c("over-range", "mixed")) {
    open <- runif(n) < 0.15 & is.finite(low)
    high[open] <- Inf
  }
  list(x = x, low = low * scale, high = high * scale, scale = scale)
}

ask <- function(series, floor, c, at) {
  numbers <- function(v) {
    text <- sprintf("%.17g", v)
    text[v == -Inf] <- "-Inf"
    text[v == Inf] <- "Inf"
    text
  }
  rows <- paste(numbers(series$low), numbers(series$high), numbers(series$x), collapse = " ")
  question <- paste(numbers(floor), length(series$x), rows, numbers(c), numbers(at))
  as.numeric(strsplit(system2(driver, input = question, stdout = TRUE), " ")[[1]])
}

fit_r <- function(series, sigma) {
  lo <- ifelse(is.finite(series$low), series$low, NA)
  hi <- ifelse(is.finite(series$high), series$high, NA)
  middle <- ifelse(is.na(lo), hi, ifelse(is.na(hi), lo, (lo + hi) / 2))
  start <- coef(lm(middle ~ series$x))
  residual <- sd(middle - start[1] - start[2] * series$x)
  control <- survreg.control(maxiter = 500, rel.tolerance = 1e-14, toler.chol = 1e-14)
  x <- series$x
  survreg(Surv(lo, hi, type = "interval2") ~ x, dist = "gaussian", scale = if (is.na(sigma)) 0 else sigma,
          init = if (is.na(sigma)) c(start, log(residual)) else start, control = control)
}

risk_r <- function(beta, sigma, V, c, at) {
  z <- (c - beta[1] - beta[2] * at) / sigma
  gradient <- c(-1 / sigma, -at / sigma, -z)[seq_len(nrow(V))]
  se <- sqrt(drop(gradient %*% V %*% gradient))
  c(pnorm(-z), pnorm(-(z - qnorm(0.9) * se)))
}

bound_r <- function(x, beta, sigma, V, c) {
  z <- (c - beta[1] - beta[2] * x) / sigma
  variance <- (V[1, 1] + 2 * x * V[1, 2] + x^2 * V[2, 2]) / sigma^2
  if (nrow(V) > 2) variance <- variance + z^2 * V[3, 3] + 2 * z * (V[1, 3] + x * V[2, 3]) / sigma
  pnorm(-(z - qnorm(0.9) * sqrt(variance)))
}

due_r <- function(beta, sigma, V, c, from, to) {
  f <- function(x) bound_r(x, beta, sigma, V, c) - 0.10
  if (f(from) > 0) return(from)
  grid <- from + (10^seq(-6, log10(to - from), length.out = 20000))
  up <- which(f(grid) > 0)
  if (length(up) == 0) return(Inf)
  low <- if (up[1] == 1) from else grid[up[1] - 1]
  uniroot(f, c(low, grid[up[1]]), tol = 1e-13 * max(1, abs(grid[up[1]])))$root
}

# Largest relative differences: coefficients (as a line over the data's x), covariance, log likelihood, risk.
compare <- function(answer, model, series, sigma, c, at) {
  beta <- coef(model)
  V <- model$var
  s <- if (is.na(sigma)) model$scale else sigma
  spread <- max(abs(beta[1] + beta[2] * range(series$x)), s)
  ours <- answer[3] + answer[4] * range(series$x)
  theirs <- beta[1] + beta[2] * range(series$x)
  cov_ours <- answer[c(7, 8, 9)]
  cov_theirs <- c(V[1, 1], V[1, 2], V[2, 2])
  if (is.na(sigma)) {
    cov_ours <- c(cov_ours, answer[c(10, 11, 12)])
    cov_theirs <- c(cov_theirs, V[1, 3], V[2, 3], V[3, 3])
  }
  size <- sqrt(c(V[1, 1]^2, V[1, 1] * V[2, 2], V[2, 2]^2,
                 if (is.na(sigma)) c(V[1, 1] * V[3, 3], V[2, 2] * V[3, 3], V[3, 3]^2)))
  risk <- risk_r(beta, s, V, c, at)
  due <- due_r(beta, s, V, c, at - 1000, at + 1e7)
  due_error <- if (is.infinite(due)) (if (is.infinite(answer[15])) 0 else 1)
               else abs(answer[15] - due) / max(1, abs(due), diff(range(series$x)))
  c(line = max(abs(ours - theirs)) / spread,
    sigma = abs(answer[5] / s - 1),
    covariance = max(abs(cov_ours - cov_theirs) / size),
    likelihood = abs(answer[6] - model$loglik[2]) / max(1, abs(model$loglik[2])),
    risk = abs(answer[13] - risk[1]), bound = abs(answer[14] - risk[2]), due = due_error)
}

tolerance <- c(line = 1e-6, sigma = 1e-6, covariance = 1e-5, likelihood = 1e-8, risk = 1e-6, bound = 1e-6,
               due = 1e-6)

tests <- 0
failed <- 0
cat(sprintf("1..%d\n", length(sizes) * length(shapes) * 2))
for (n in sizes) for (shape in shapes) for (floor_drops in c(0, 1)) {
  tests <- tests + 1
  worst <- numeric(0)
  compared <- 0
  rounds <- if (n > 100) 3 else 12
  for (round in seq_len(rounds)) {
    series <- make_series(n, shape)
    floor <- floor_drops * series$scale
    finite <- is.finite(series$high)
    c <- max(series$high[finite]) + 0.5 * series$scale
    at <- max(series$x) + 0.1 * diff(range(series$x))
    answer <- ask(series, floor, c, at)
    if (!(answer[1] %in% c(0, 5))) next
    sigma <- if (answer[2] == 1) floor else NA
    model <- tryCatch(fit_r(series, sigma), error = function(e) NULL, warning = function(w) NULL)
    if (is.null(model)) next
    compared <- compared + 1
    worst <- pmax(if (length(worst)) worst else 0, compare(answer, model, series, sigma, c, at))
  }
  bad <- compared == 0 || any(!(worst <= tolerance))
  failed <- failed + bad
  cat(sprintf("%s %d - n %d, %s, floor %g: %d compared, worst: %s\n", if (bad) "not ok" else "ok", tests, n,
              shape, floor_drops, compared, paste(names(tolerance), signif(worst, 2), collapse = " ")))
}
quit(status = if (failed > 0) 1 else 0)
