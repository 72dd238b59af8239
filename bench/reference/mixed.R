# The same mixed model in R: lme4 alone, and with lmerTest's degrees of freedom of the fixed effects.
suppressMessages({library(lme4); library(jsonlite)})
args <- commandArgs(trailingOnly = TRUE)
d <- fromJSON(args[1])
passes <- as.integer(args[2])
fit <- function() lmer(y ~ time + (time | person), data = d, REML = TRUE)
invisible(fit())
began <- proc.time()[["elapsed"]]
for (i in seq_len(passes)) m <- fit()
work <- 1000 * (proc.time()[["elapsed"]] - began) / passes
cat(toJSON(list(work = work, residual = sigma(m), versions = paste(R.version.string, "lme4", packageVersion("lme4"))),
           auto_unbox = TRUE, digits = 12), "\n")
