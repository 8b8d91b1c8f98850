# Reads sets of lives, one a line: kind, shape, spread, then time:failed:group …
# "free" fits shape and scale by survreg of the package survival; "groups" fits scale
# and one effect a group at a given shape, the effects held by a ridge. Writes one
# line of figures for each.
suppressMessages(library(survival))
ctl <- survreg.control(rel.tolerance = 1e-15, maxiter = 500, toler.chol = 1e-15, outer.max = 100)
for (line in readLines(file("stdin"))) {
  w <- strsplit(line, " ")[[1]]
  m <- matrix(as.numeric(unlist(strsplit(w[-(1:3)], ":"))), ncol = 3, byrow = TRUE)
  time <- m[, 1]; failed <- m[, 2]
  if (w[1] == "free") {
    f <- suppressWarnings(survreg(Surv(time, failed) ~ 1, dist = "weibull", control = ctl))
    v <- f$var
    q <- predict(f, newdata = data.frame(x = 1), type = "uquantile", p = c(.1, .5), se.fit = TRUE)
    out <- c(f$loglik[1], 1 / f$scale, exp(unname(coef(f))), sqrt(v[1, 1]), sqrt(v[2, 2]), v[1, 2], q$fit, q$se.fit)
  } else {
    theta <- 1 / as.numeric(w[3])^2
    x <- outer(m[, 3], sort(unique(m[, 3])), "==") * 1
    f <- survreg(Surv(time, failed) ~ ridge(x, theta = theta, scale = FALSE), dist = "weibull", scale = 1 / as.numeric(w[2]), control = ctl)
    out <- unname(coef(f))
  }
  cat(formatC(out, digits = 17, format = "g"), "\n")
}
