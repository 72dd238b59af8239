# Makes statistics.json: distributions, regression, analysis of variance and mixed models as R computes them.
# Rscript make-statistics.R > statistics.json    (Debian r-base-core, r-cran-lme4, r-cran-lmertest, r-cran-jsonlite; no random numbers)
suppressMessages({library(lme4); library(lmerTest); library(jsonlite)})

grid <- function(f, ...) { g <- expand.grid(...); g$value <- do.call(f, unname(as.list(g))); g }
rows <- function(g) lapply(seq_len(nrow(g)), function(i) as.list(g[i, , drop = FALSE]))

tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-10, maxfun = 1e5), calc.derivs = TRUE)
fitted <- function(formula, data) {
  m <- lmer(formula, data, REML = TRUE, control = tight)
  s <- coef(summary(m))
  v <- as.data.frame(VarCorr(m))
  list(
    criterion = as.numeric(-2 * logLik(m)),
    sigma = sigma(m),
    components = lapply(seq_len(nrow(v)), function(i)
      list(group = v$grp[i], first = v$var1[i], second = v$var2[i], variance = v$vcov[i], sd = v$sdcor[i])),
    fixed = lapply(seq_len(nrow(s)), function(i)
      list(value = s[i, "Estimate"], error = s[i, "Std. Error"], df = s[i, "df"], t = s[i, "t value"], p = s[i, "Pr(>|t|)"])),
    # Deviations of each person, by name.
    effects = {
      r <- ranef(m)
      r <- r[[which.min(sapply(r, nrow))]]
      setNames(lapply(seq_len(nrow(r)), function(i) unname(unlist(r[i, ]))), rownames(r))
    },
    singular = isSingular(m)
  )
}

odd <- sleepstudy[-c(2, 3, 17, 24, 25, 26, 41, 60, 77, 98, 99, 120, 133, 151, 169, 170), ]
anova2 <- function(x) {
  long <- data.frame(y = as.vector(x), person = factor(row(x)), occasion = factor(col(x)))
  a <- anova(lm(y ~ person + occasion, long))
  list(x = x, df = a[["Df"]], sum = a[["Sum Sq"]], f = c(a[1, 4], a[2, 4]), p = c(a[1, 5], a[2, 5]))
}
unequal <- list(c(51, 54, 49), c(60, 62), c(47, 44, 48, 46), c(58, 57, 59), c(50))
oneway <- anova(lm(y ~ g, data.frame(y = unlist(unequal), g = factor(rep(seq_along(unequal), lengths(unequal))))))
line <- lm(Reaction ~ Days, sleepstudy)

out <- list(
  versions = list(R = R.version.string, lme4 = as.character(packageVersion("lme4")), lmerTest = as.character(packageVersion("lmerTest"))),
  normal = rows(grid(pnorm, x = c(-30, -8, -2.5, 0, 0.3, 1.96, 6))),
  normalQuantile = rows(grid(qnorm, p = c(1e-12, 0.001, 0.3, 0.975, 0.9999))),
  t = rows(grid(pt, x = c(-12, -2.1, 0.4, 3.3), df = c(1, 3.7, 12, 60.5, 400))),
  tQuantile = rows(grid(qt, p = c(0.0005, 0.1, 0.75, 0.975, 0.9995), df = c(1, 3.7, 12, 60.5, 400))),
  chiSquare = rows(grid(pchisq, x = c(0.2, 5, 30), df = c(1, 7.4, 19, 120))),
  chiSquareQuantile = rows(grid(qchisq, p = c(0.025, 0.05, 0.5, 0.975), df = c(1, 7.4, 19, 120))),
  f = rows(grid(function(x, a, b) pf(x, a, b, lower.tail = FALSE), x = c(0.3, 1.8, 11, 120), a = c(1, 5, 17.3), b = c(4.785143862, 15, 200))),
  fQuantile = rows(grid(qf, p = c(0.025, 0.5, 0.95, 0.975), a = c(1, 5, 17.3), b = c(4.785143862, 15, 200))),
  noncentralT = rows(grid(pt, x = c(-1, 0, 2, 8.1, 12), df = c(4, 16, 60.5), ncp = c(-1.5, 0, 2.2, 8.08, 20))),
  line = list(coefficients = unname(coef(summary(line))), sigma = sigma(line), r = cor(sleepstudy$Days, sleepstudy$Reaction)),
  anova = list(
    anova2(matrix(c(9, 2, 5, 8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7), ncol = 4, byrow = TRUE)),
    anova2(matrix(c(3010.5, 3055, 2990, 2405, 2450.5, 2431, 3570, 3610, 3655, 2888, 2870, 2901, 3120, 3199, 3150.25), ncol = 3, byrow = TRUE))),
  oneWay = list(groups = unequal, df = oneway[["Df"]], mean = oneway[["Mean Sq"]]),
  sets = list(
    Dyestuff = list(y = Dyestuff$Yield, person = as.character(Dyestuff$Batch)),
    Dyestuff2 = list(y = Dyestuff2$Yield, person = as.character(Dyestuff2$Batch)),
    sleepstudy = list(y = sleepstudy$Reaction, time = sleepstudy$Days, person = as.character(sleepstudy$Subject)),
    odd = list(y = odd$Reaction, time = odd$Days, person = as.character(odd$Subject)),
    Pastes = list(y = Pastes$strength, person = as.character(Pastes$batch), session = as.character(Pastes$sample))),
  models = list(
    Dyestuff = fitted(Yield ~ 1 + (1 | Batch), Dyestuff),
    Dyestuff2 = fitted(Yield ~ 1 + (1 | Batch), Dyestuff2),
    sleepstudyLevel = fitted(Reaction ~ Days + (1 | Subject), sleepstudy),
    sleepstudy = fitted(Reaction ~ Days + (Days | Subject), sleepstudy),
    oddLevel = fitted(Reaction ~ Days + (1 | Subject), odd),
    odd = fitted(Reaction ~ Days + (Days | Subject), odd),
    Pastes = fitted(strength ~ 1 + (1 | batch) + (1 | sample), Pastes)))
cat(toJSON(out, digits = NA, auto_unbox = TRUE, pretty = FALSE, na = "null"), "\n")
